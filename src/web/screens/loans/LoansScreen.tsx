import { Button, Group, SegmentedControl, Text } from '@mantine/core';
import { useState } from 'react';
import { useClub } from '../../api/club';
import { text } from '../../text';
import { Cautions } from '../../ui/Cautions';
import { Loaded } from '../../ui/Loaded';
import { Screen } from '../../ui/Screen';
import { Sheet } from '../../ui/Sheet';
import { useLotsWithMass } from '../lots/lot-queries';
import { SeedWays } from '../seed/SeedWays';
import { AskForm } from './AskForm';
import { Balances } from './Balances';
import { useLoans, type Loan } from './loan-queries';
import { isTurnOf } from './loan-words';
import { LoanCard } from './LoanCard';
import { OfferForm } from './OfferForm';

const words = text.loans;
const shownAtFirst = 10;

/** Seed lent and borrowed: whose turn it is, what stands open, who owes whom. */
export function LoansScreen() {
  const { memberId } = useClub();
  const [whose, setWhose] = useState<'mine' | 'everybodys'>('mine');
  const [open, setOpen] = useState<'ask' | 'offer' | null>(null);
  const loans = useLoans({});
  // Whoever hands seed over where there is no network chooses from what was read before.
  useLotsWithMass('seed', memberId);
  const close = () => setOpen(null);
  return (
    <Screen title={words.title}>
      <SeedWays here="loans" />
      <Group className="no-print">
        <SegmentedControl
          aria-label={words.whose}
          value={whose}
          onChange={setWhose}
          data={[
            { value: 'mine', label: words.mine },
            { value: 'everybodys', label: words.everybodys },
          ]}
        />
        <Group gap="xs">
          <Button onClick={() => setOpen(open === 'ask' ? null : 'ask')}>{words.ask}</Button>
          <Button variant="default" onClick={() => setOpen(open === 'offer' ? null : 'offer')}>
            {words.offer}
          </Button>
        </Group>
      </Group>
      {open !== null && (
        <Sheet title={words[open]}>
          {open === 'ask' ? (
            <AskForm onDone={close} onCancel={close} />
          ) : (
            <OfferForm onDone={close} onCancel={close} />
          )}
        </Sheet>
      )}
      <div className="columns">
        <div>
          <Loaded query={loans}>
            {(items) => <Groups loans={items} isOwn={whose === 'mine'} />}
          </Loaded>
        </div>
        <div>
          <Balances isOwn={whose === 'mine'} />
          <Cautions />
        </div>
      </div>
    </Screen>
  );
}

function Groups({ loans, isOwn }: { loans: Loan[]; isOwn: boolean }) {
  const { memberId } = useClub();
  const isMine = ({ lender, borrower }: Loan) =>
    lender?.id === memberId || borrower.id === memberId;
  const turn = loans.filter((loan) => isTurnOf(loan, memberId));
  const rest = loans.filter((loan) => !turn.includes(loan));
  const mine = rest.filter(isMine);
  const isOpen = ({ endedAt }: Loan) => endedAt === null;
  const lent = mine.filter(({ state }) => state === 'lent');
  const over = (isOwn ? mine : rest).filter((loan) => !isOpen(loan));
  return (
    <>
      <Sheet title={words.yourTurn}>
        <Loans loans={turn} none={words.nothingToDo} />
      </Sheet>
      <Part
        title={words.waiting}
        loans={mine.filter((loan) => isOpen(loan) && loan.state !== 'lent')}
      />
      <Part
        title={words.youBorrowed}
        loans={lent.filter(({ borrower }) => borrower.id === memberId)}
      />
      <Part title={words.youLent} loans={lent.filter(({ lender }) => lender?.id === memberId)} />
      {!isOwn && (
        <Part
          title={words.others}
          loans={rest.filter((loan) => isOpen(loan) && !isMine(loan))}
          isForAll
        />
      )}
      {over.length > 0 && (
        <details className="sheet">
          <summary>
            {words.over} ({over.length})
          </summary>
          <Loans loans={over} none={words.none} />
        </details>
      )}
    </>
  );
}

function Part({
  title,
  loans,
  isForAll = false,
}: {
  title: string;
  loans: Loan[];
  isForAll?: boolean;
}) {
  if (loans.length === 0) return null;
  return (
    <Sheet title={title}>
      <Loans loans={loans} none={words.none} isForAll={isForAll} />
    </Sheet>
  );
}

function Loans({
  loans,
  none,
  isForAll = false,
}: {
  loans: Loan[];
  none: string;
  isForAll?: boolean;
}) {
  const [shown, setShown] = useState(shownAtFirst);
  if (loans.length === 0) return <Text className="soft">{none}</Text>;
  // What is overdue comes first.
  const sorted = [...loans].sort((a, b) => Number(b.overdue) - Number(a.overdue));
  return (
    <>
      <ul className="loans">
        {sorted.slice(0, shown).map((loan) => (
          <LoanCard key={loan.id} loan={loan} isForAll={isForAll} />
        ))}
      </ul>
      {loans.length > shown && (
        <Button variant="subtle" onClick={() => setShown(shown + shownAtFirst)}>
          {text.frame.more}
        </Button>
      )}
    </>
  );
}
