import { Checkbox, NumberInput } from '@mantine/core';
import { text } from '../../text';
import { kgFrom, typedMass, useUnitWords } from '../../ui/units';
import type { Lot } from './batch-queries';

/** How much of which lot, in kilograms. */
export type LotMass = { lotId: string; massKg: number };

/** Lots to choose from, each with the mass that is to be taken. */
export function LotMasses({
  lots,
  value,
  onChange,
  suggestKg,
}: {
  lots: Lot[];
  value: LotMass[];
  onChange: (value: LotMass[]) => void;
  /** What to fill in when a lot is chosen; nothing: all that is left. */
  suggestKg?: number;
}) {
  const { units, massUnit, mass } = useUnitWords();
  return (
    <div className="lot-masses">
      {lots.map((lot) => {
        const chosen = value.find(({ lotId }) => lotId === lot.id);
        const others = value.filter(({ lotId }) => lotId !== lot.id);
        const first = Math.min(lot.remainingMassKg, suggestKg ?? lot.remainingMassKg);
        return (
          <div key={lot.id}>
            <Checkbox
              label={lot.name}
              description={text.batches.of(mass(lot.remainingMassKg))}
              checked={chosen !== undefined}
              onChange={(event) =>
                onChange(
                  event.currentTarget.checked
                    ? [...others, { lotId: lot.id, massKg: first }]
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
                  onChange(
                    value.map((one) =>
                      one.lotId === lot.id
                        ? { lotId: lot.id, massKg: kgFrom(Number(typed), units) }
                        : one,
                    ),
                  )
                }
              />
            )}
          </div>
        );
      })}
    </div>
  );
}
