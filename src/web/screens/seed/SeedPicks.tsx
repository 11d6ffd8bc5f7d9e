import { Checkbox, NumberInput, Stack, Text } from '@mantine/core';
import { text } from '../../text';
import { kgFrom, typedMass, useUnitWords } from '../../ui/units';
import { FittingList } from './FittingList';
import type { Fitting, FittingLot } from './seed-queries';

const words = text.seed;

/** How much of which lot. */
export type SeedPick = { lotId: string; massKg: number };

/** Seed for a batch, chosen from the list of what fits. Several tubs may make it up together. */
export function SeedPicks({
  fitting,
  value,
  onChange,
}: {
  fitting: Fitting;
  value: SeedPick[];
  onChange: (value: SeedPick[]) => void;
}) {
  const { mass } = useUnitWords();
  const chosenKg = value.reduce((sum, { massKg }) => sum + massKg, 0);
  const needed = fitting.neededMassKg;
  return (
    <Stack gap="sm">
      {value.length > 0 && (
        <Text fw={600} role="status">
          {words.chosen(mass(chosenKg), mass(needed))}
        </Text>
      )}
      <FittingList
        fitting={{ ...fitting, items: inReachFirst(fitting.items) }}
        pick={(lot) => (
          <Pick
            lot={lot}
            missingKg={Math.max(0, Number((needed - chosenKg).toFixed(3)))}
            value={value}
            onChange={onChange}
          />
        )}
      />
    </Stack>
  );
}

/** What is in one's own hands can be stirred in now; the rest of the list keeps its order. */
function inReachFirst(items: readonly FittingLot[]): FittingLot[] {
  return [...items].sort((a, b) => Number(a.toBorrow) - Number(b.toBorrow));
}

function Pick({
  lot,
  missingKg,
  value,
  onChange,
}: {
  lot: FittingLot;
  missingKg: number;
  value: SeedPick[];
  onChange: (value: SeedPick[]) => void;
}) {
  const { units, massUnit, mass } = useUnitWords();
  if (lot.toBorrow) return <Text className="soft">{words.mustBorrow}</Text>;
  if (lot.onHold) return <Text className="soft">{words.onHoldWhy}</Text>;
  const chosen = value.find(({ lotId }) => lotId === lot.lotId);
  const others = value.filter(({ lotId }) => lotId !== lot.lotId);
  return (
    <>
      <Checkbox
        label={words.take(lot.name)}
        description={text.batches.of(mass(lot.freeMassKg))}
        checked={chosen !== undefined}
        onChange={(event) =>
          onChange(
            event.currentTarget.checked
              ? [...others, { lotId: lot.lotId, massKg: Math.min(lot.freeMassKg, missingKg) }]
              : others,
          )
        }
      />
      {chosen !== undefined && (
        <NumberInput
          aria-label={`${lot.name}: ${text.batches.mass(massUnit)}`}
          suffix={` ${massUnit}`}
          min={0}
          decimalScale={3}
          hideControls
          inputMode="decimal"
          value={typedMass(chosen.massKg, units)}
          onChange={(typed) =>
            onChange([...others, { lotId: lot.lotId, massKg: kgFrom(Number(typed), units) }])
          }
        />
      )}
    </>
  );
}
