import { Button, Checkbox, NumberInput } from '@mantine/core';
import { useState } from 'react';
import { text } from '../../text';
import { kgFrom, typedMass, useUnitWords } from '../../ui/units';
import type { Lot } from './batch-queries';

const shownAtFirst = 20;

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
  const [shown, setShown] = useState(shownAtFirst);
  return (
    <div className="lot-masses">
      {lots.slice(0, shown).map((lot) => {
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
      {lots.length > shown && (
        <Button variant="default" w="fit-content" onClick={() => setShown(shown + 50)}>
          {text.frame.more}
        </Button>
      )}
    </div>
  );
}
