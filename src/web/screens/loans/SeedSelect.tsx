import { NativeSelect, Text } from '@mantine/core';
import { text } from '../../text';
import { useUnitWords } from '../../ui/units';
import type { Lot } from '../lots/lot-queries';

const words = text.loans;

/** What may be taken from a lot just now. */
export function freeKgOf({ remainingMassKg, reservedMassKg }: Lot): number {
  return Number((remainingMassKg - reservedMassKg).toFixed(3));
}

/** The lot that a loan, or a part of it, would best be taken from: one named already, else one that has enough, else the one with most. */
export function bestLotFor(lots: readonly Lot[], massKg: number, namedId?: string): Lot | null {
  const usable = lots.filter(({ onHold }) => onHold.length === 0);
  return (
    usable.find(({ id }) => id === namedId) ??
    usable.find((lot) => freeKgOf(lot) >= massKg) ??
    [...usable].sort((a, b) => freeKgOf(b) - freeKgOf(a))[0] ??
    null
  );
}

/** A choice among somebody's seed. What is on hold is shown and cannot be chosen. */
export function SeedSelect({
  lots,
  value,
  onChange,
}: {
  lots: readonly Lot[];
  value: string;
  onChange: (lotId: string) => void;
}) {
  const { mass } = useUnitWords();
  if (lots.length === 0) return <Text>{words.noSeed}</Text>;
  return (
    <NativeSelect
      label={words.lot}
      required
      value={value}
      onChange={(event) => onChange(event.currentTarget.value)}
      data={lots.map((lot) => ({
        value: lot.id,
        label:
          lot.onHold.length > 0
            ? words.lotOnHold(lot.name)
            : words.lotOf(lot.name, mass(freeKgOf(lot))),
        disabled: lot.onHold.length > 0,
      }))}
    />
  );
}
