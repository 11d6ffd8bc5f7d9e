import { Button, NativeSelect, Stack, Text, TextInput } from '@mantine/core';
import { useMutation, useQuery } from '@tanstack/react-query';
import { useState, type SyntheticEvent } from 'react';
import { answer, api, everyItem, pageFrom } from '../../api/client';
import { useClub } from '../../api/club';
import { readAnew } from '../../api/queries';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import { Folded } from '../../ui/Folded';
import { Loaded } from '../../ui/Loaded';
import { MassField } from '../../ui/MassField';
import { Sheet } from '../../ui/Sheet';
import { useTimes } from '../../ui/times';
import { useUnitWords } from '../../ui/units';
import { useLots, type Lot } from './lot-queries';
import type { NearLineage } from './walk-layout';
import { writtenMark } from './written-mark';

const words = text.lineage.wrong;
const nothing = '';

/** What went into a lot is put right: another lot did, or less. What stood there first is kept and shown. */
export function CorrectionSheet({ lot }: { lot: Lot }) {
  const { memberId, role } = useClub();
  // What was lent is corrected by the lender, who holds another lot.
  const mayCorrect = role === 'steward' || lot.holder.id === memberId || lot.kind === 'seed';
  return (
    <Sheet title={words.title}>
      <Corrections lotId={lot.id} />
      {mayCorrect && (
        <Folded summary={words.correct} className="no-print">
          {() => (
            <>
              <Text className="soft">{words.intro}</Text>
              <Correct lot={lot} />
            </>
          )}
        </Folded>
      )}
    </Sheet>
  );
}

function Corrections({ lotId }: { lotId: string }) {
  const { clubId } = useClub();
  const times = useTimes();
  const { mass } = useUnitWords();
  const corrections = useQuery({
    queryKey: ['corrections', clubId, lotId],
    queryFn: () =>
      everyItem((cursor) =>
        api.GET('/api/v1/clubs/{clubId}/lots/{id}/corrections', {
          params: { path: { clubId, id: lotId }, query: pageFrom(cursor) },
        }),
      ),
  });
  return (
    <Loaded query={corrections}>
      {(items) =>
        items.length > 0 && (
          <ul className="rows" aria-label={words.list}>
            {items.map(
              ({
                id,
                massKg,
                wrongLot,
                rightLot,
                because,
                recordedBy,
                recordedAt,
                firstRecord,
              }) => (
                <li key={id} className="released">
                  <Text>
                    {rightLot === null
                      ? words.less(mass(massKg), wrongLot.name)
                      : words.sentence(mass(massKg), wrongLot.name, rightLot.name)}
                    : {because}
                  </Text>
                  <Text className="soft">
                    {words.by(recordedBy.name, times.date(recordedAt))}.{' '}
                    {words.first(
                      mass(firstRecord.massKg),
                      firstRecord.by.name,
                      times.date(firstRecord.recordedAt),
                    )}
                  </Text>
                </li>
              ),
            )}
          </ul>
        )
      }
    </Loaded>
  );
}

function Correct({ lot }: { lot: Lot }) {
  const { clubId } = useClub();
  const lineage = useQuery({
    queryKey: ['lineage-of-inputs', clubId, lot.id],
    queryFn: () =>
      answer(
        api.GET('/api/v1/clubs/{clubId}/lots/{id}/lineage', {
          params: { path: { clubId, id: lot.id } },
        }),
      ),
  });
  return (
    <Loaded query={lineage}>
      {(found) => <CorrectForm lot={lot} inputs={inputsOf(found, lot)} />}
    </Loaded>
  );
}

interface Input {
  lotId: string;
  name: string;
  kind: Lot['kind'];
  massKg: number;
}

/** What is on record as having gone into the lot. */
function inputsOf({ lots, lines }: NearLineage, { id }: Lot): Input[] {
  return lines
    .filter(({ childId }) => childId === id)
    .flatMap(({ parentId, massKg }) => {
      const parent = lots.find(({ lotId }) => lotId === parentId);
      return parent === undefined ? [] : [{ ...parent, massKg }];
    });
}

function CorrectForm({ lot, inputs }: { lot: Lot; inputs: Input[] }) {
  const { clubId, memberId, role } = useClub();
  const { massUnit, mass } = useUnitWords();
  const [chosenId, setWrong] = useState(nothing);
  // What was put right is no longer among them.
  const wrong = inputs.find(({ lotId }) => lotId === chosenId) ?? inputs[0];
  const wrongLotId = wrong?.lotId ?? nothing;
  const [rightLotId, setRight] = useState(nothing);
  const [massKg, setMass] = useState<number | null>(wrong?.massKg ?? null);
  const [because, setBecause] = useState('');
  const others = useLots({ kind: wrong?.kind ?? 'honey', withMass: true });
  const correct = useMutation({
    mutationFn: () =>
      answer(
        api.POST('/api/v1/clubs/{clubId}/lots/{id}/corrections', {
          params: { path: { clubId, id: lot.id } },
          body: {
            wrongLotId,
            rightLotId: rightLotId === nothing ? null : rightLotId,
            massKg: massKg ?? 0,
            because,
          },
        }),
      ),
    onSuccess: async () => {
      setBecause('');
      setRight(nothing);
      setMass(null);
      await readAnew();
    },
  });
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    correct.mutate();
  };
  const rights = (others.data ?? []).filter(
    ({ id, holder }) => id !== wrongLotId && (role === 'steward' || holder.id === memberId),
  );
  return (
    <form onSubmit={submit}>
      <Stack gap="xs">
        <NativeSelect
          label={words.wrongLot}
          value={wrongLotId}
          data={inputs.map(({ lotId, name, massKg: recordedKg }) => ({
            value: lotId,
            label: words.recorded(name, mass(recordedKg)),
          }))}
          onChange={(event) => {
            const { value } = event.currentTarget;
            setWrong(value);
            setRight(nothing);
            setMass(inputs.find(({ lotId }) => lotId === value)?.massKg ?? null);
          }}
        />
        <NativeSelect
          label={words.rightLot}
          value={rightLotId}
          data={[
            { value: nothing, label: words.nothing },
            ...rights.map(({ id, name, code, remainingMassKg }) => ({
              value: id,
              label: words.recorded(`${name} (${writtenMark(code)})`, mass(remainingMassKg)),
            })),
          ]}
          onChange={(event) => setRight(event.currentTarget.value)}
        />
        <MassField label={words.mass(massUnit)} required valueKg={massKg} onChange={setMass} />
        <TextInput
          label={words.because}
          required
          value={because}
          onChange={(event) => setBecause(event.currentTarget.value)}
        />
        {correct.isError && <Failure error={correct.error} />}
        {correct.isSuccess && <Text role="status">{words.done}</Text>}
        <Button type="submit" variant="default" w="fit-content" loading={correct.isPending}>
          {words.correct}
        </Button>
      </Stack>
    </form>
  );
}
