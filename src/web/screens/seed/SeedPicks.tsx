import { Stack, Text } from '@mantine/core';
import { text } from '../../text';
import { useUnitWords } from '../../ui/units';
import { TakeLot, type LotMass } from '../batches/LotMasses';
import { FittingList } from './FittingList';
import type { Fitting, FittingLot } from './seed-queries';

const words = text.seed;

/** Seed for a batch, chosen from the list of what fits. Several tubs may make it up together. */
export function SeedPicks({
  fitting,
  value,
  onChange,
}: {
  fitting: Fitting;
  value: LotMass[];
  onChange: (value: LotMass[]) => void;
}) {
  const { mass } = useUnitWords();
  const chosenKg = value.reduce((sum, { massKg }) => sum + massKg, 0);
  const needed = fitting.neededMassKg;
  const missingKg = Math.max(0, Number((needed - chosenKg).toFixed(3)));
  return (
    <Stack gap="sm">
      {value.length > 0 && (
        <Text fw={600} role="status">
          {words.chosen(mass(chosenKg), mass(needed))}
        </Text>
      )}
      <FittingList
        fitting={{ ...fitting, items: inReachFirst(fitting.items) }}
        pick={({ lotId, name, freeMassKg, toBorrow, onHold }) => {
          if (toBorrow) return <Text className="soft">{words.mustBorrow}</Text>;
          if (onHold) return <Text className="soft">{words.onHoldWhy}</Text>;
          return (
            <TakeLot
              lot={{ id: lotId, name, leftKg: freeMassKg }}
              label={words.take(name)}
              firstKg={Math.min(freeMassKg, missingKg)}
              value={value}
              onChange={onChange}
            />
          );
        }}
      />
    </Stack>
  );
}

/** What is in one's own hands can be stirred in now; the rest of the list keeps its order. */
function inReachFirst(items: readonly FittingLot[]): FittingLot[] {
  return [...items].sort((a, b) => Number(a.toBorrow) - Number(b.toBorrow));
}
