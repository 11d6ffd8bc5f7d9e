import { Button, Stack, Text } from '@mantine/core';
import { useState, type ReactNode } from 'react';
import { text } from '../../text';
import '../../styles/seed.css';
import { FirstFew } from '../../ui/FirstFew';
import { useUnitWords } from '../../ui/units';
import { writtenMark } from '../lots/written-mark';
import { AskForm } from '../loans/AskForm';
import { SeedName } from './SeedFacts';
import type { Fitting, FittingLot } from './seed-queries';

const words = text.seed;
const openAtFirst = 1;

/** Seed in the order in which it fits, each with the service's reasons; what must be borrowed can be asked for at once. `pick`: how a lot is taken. */
export function FittingList({
  fitting,
  pick,
}: {
  fitting: Fitting;
  pick?: (lot: FittingLot) => ReactNode;
}) {
  const { mass } = useUnitWords();
  return (
    <Stack gap="sm">
      <div role="status">
        <Text fw={600}>{fitting.inWords}</Text>
        <Text>{words.needed(mass(fitting.neededMassKg))}</Text>
      </div>
      <FirstFew items={fitting.items} count={5} more={10}>
        {(few) => (
          <ol className="fitting" aria-label={words.ranked}>
            {few.map((lot, index) => (
              <FittingItem
                key={lot.lotId}
                lot={lot}
                isOpen={index < openAtFirst}
                needed={fitting.neededMassKg}
                pick={pick}
              />
            ))}
          </ol>
        )}
      </FirstFew>
      <details>
        <summary>{words.method}</summary>
        <Text>{fitting.method}</Text>
      </details>
      {fitting.cautions.map((caution) => (
        <Text key={caution} size="sm">
          {caution}
        </Text>
      ))}
    </Stack>
  );
}

function FittingItem({
  lot,
  isOpen,
  needed,
  pick,
}: {
  lot: FittingLot;
  isOpen: boolean;
  needed: number;
  pick?: ((lot: FittingLot) => ReactNode) | undefined;
}) {
  const against = lot.obstacles.map((one) => words.obstacles[one] ?? one).join(', ');
  return (
    <li className={lot.fits ? 'fits' : 'fits-not'}>
      <div className="fitting-head">
        <span className="fitting-rank" aria-hidden="true">
          {lot.rank}
        </span>
        <span>
          <SeedName lot={lot} />
          <span className="soft">
            {writtenMark(lot.code)} · {lot.toBorrow ? words.heldBy(lot.holder.name) : words.yours}
          </span>
        </span>
        <strong className="fitting-mark">
          <span aria-hidden="true">{lot.fits ? '✓ ' : '✕ '}</span>
          {lot.fits ? words.fits : words.fitsNot(against)}
        </strong>
      </div>
      {pick?.(lot)}
      <details open={isOpen}>
        <summary>{words.why}</summary>
        <ul>
          {lot.why.map((reason) => (
            <li key={reason}>{reason}</li>
          ))}
        </ul>
      </details>
      {lot.toBorrow && !lot.onHold && <AskHolder lot={lot} needed={needed} />}
    </li>
  );
}

function AskHolder({ lot, needed }: { lot: FittingLot; needed: number }) {
  const [isOpen, setOpen] = useState(false);
  const [isAsked, setAsked] = useState(false);
  if (isAsked) return <Text role="status">{text.loans.asked(lot.holder.name)}</Text>;
  if (!isOpen) {
    return (
      <Button variant="default" w="fit-content" onClick={() => setOpen(true)}>
        {words.askFor(lot.holder.name)}
      </Button>
    );
  }
  return (
    <AskForm
      lot={{ id: lot.lotId, name: lot.name }}
      holder={lot.holder}
      massKg={Math.min(needed, lot.freeMassKg)}
      onDone={() => setAsked(true)}
      onCancel={() => setOpen(false)}
    />
  );
}
