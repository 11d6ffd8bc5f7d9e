import { Button, Group, Stack, Text, TextInput } from '@mantine/core';
import { useState } from 'react';
import { useClub } from '../../api/club';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import { useUnitWords } from '../../ui/units';
import { GiveBackForm } from './GiveBackForm';
import { HandOverForm } from './HandOverForm';
import type { Loan, LoanDeed } from './loan-queries';
import { loanSentence } from './loan-words';
import { useDeed, useMoveDay, useTakeBack } from './use-deed';

const words = text.loans;

/** What comes first is done most; saying no and giving up are there, too; what is seldom done is quiet. */
const looks: Record<LoanDeed, 'filled' | 'default' | 'subtle'> = {
  accept: 'filled',
  decline: 'default',
  withdraw: 'default',
  'hand-over': 'filled',
  return: 'filled',
  forgive: 'subtle',
  'move-day': 'subtle',
};

/** What may be done with a loan: the first tap opens it, with all filled in that is known; the second does it. */
export function LoanDeeds({ loan, deeds }: { loan: Loan; deeds: LoanDeed[] }) {
  const [open, setOpen] = useState<LoanDeed | null>(null);
  const close = () => setOpen(null);
  if (open === null) {
    return (
      <Group gap="md" className="no-print">
        {deeds.map((deed) => (
          <Button key={deed} variant={looks[deed]} onClick={() => setOpen(deed)}>
            {words.deeds[deed]}
          </Button>
        ))}
      </Group>
    );
  }
  return (
    <Stack gap="xs" className="no-print">
      {open === 'hand-over' ? (
        <HandOverForm loan={loan} onDone={close} />
      ) : open === 'return' ? (
        <GiveBackForm loan={loan} onDone={close} />
      ) : open === 'withdraw' ? (
        <TakeBack loan={loan} onDone={close} />
      ) : open === 'move-day' ? (
        <MoveDay loan={loan} onDone={close} />
      ) : (
        <Say key={open} loan={loan} deed={open} onDone={close} />
      )}
      <Button variant="subtle" w="fit-content" onClick={close}>
        {text.frame.close}
      </Button>
    </Stack>
  );
}

const paths = { accept: 'acceptance', decline: 'decline', forgive: 'forgiveness' };

/** Yes, no, or never mind the rest. */
function Say({ loan, deed, onDone }: { loan: Loan; deed: keyof typeof paths; onDone: () => void }) {
  const { memberId } = useClub();
  const { mass } = useUnitWords();
  const [note, setNote] = useState('');
  const told = `${words.deeds[deed]}: ${loanSentence(loan, memberId, mass(loan.massKg))}`;
  const say = useDeed(told, onDone);
  return (
    <>
      {deed !== 'accept' && (
        <TextInput
          label={words.why}
          value={note}
          onChange={(event) => setNote(event.currentTarget.value)}
        />
      )}
      {say.isError && <Failure error={say.error} />}
      {say.data === 'kept' ? (
        <Text role="status">{words.kept}</Text>
      ) : (
        <Button
          size="lg"
          w="fit-content"
          loading={say.isPending}
          onClick={() =>
            say.mutate({
              path: `/${loan.id}/${paths[deed]}`,
              body: deed === 'accept' || note === '' ? {} : { note },
            })
          }
        >
          {words.sure[deed]}
        </Button>
      )}
    </>
  );
}

function TakeBack({ loan, onDone }: { loan: Loan; onDone: () => void }) {
  const takeBack = useTakeBack(loan.id, onDone);
  return (
    <>
      {takeBack.isError && <Failure error={takeBack.error} />}
      <Button
        size="lg"
        w="fit-content"
        loading={takeBack.isPending}
        onClick={() => takeBack.mutate()}
      >
        {words.sure.withdraw}
      </Button>
    </>
  );
}

function MoveDay({ loan, onDone }: { loan: Loan; onDone: () => void }) {
  const [dueOn, setDue] = useState(loan.dueOn ?? '');
  const move = useMoveDay(loan.id, onDone);
  return (
    <>
      <TextInput
        type="date"
        label={words.dueOn}
        value={dueOn}
        onChange={(event) => setDue(event.currentTarget.value)}
      />
      {move.isError && <Failure error={move.error} />}
      <Button
        size="lg"
        w="fit-content"
        loading={move.isPending}
        onClick={() => move.mutate(dueOn === '' ? null : dueOn)}
      >
        {words.sure['move-day']}
      </Button>
    </>
  );
}
