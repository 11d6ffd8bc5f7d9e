import { Checkbox, NumberInput } from '@mantine/core';
import { text } from '../../text';
import { FirstFew } from '../../ui/FirstFew';
import { kgFrom, typedMass, useUnitWords } from '../../ui/units';
import type { Lot } from '../lots/lot-queries';

/** How much of which lot, in kilograms. */
export type LotMass = { lotId: string; massKg: number };

/** Lots to choose from, each with the mass that is to be taken. */
export function LotMasses({
  lots,
  value,
  onChange,
}: {
  lots: Lot[];
  value: LotMass[];
  onChange: (value: LotMass[]) => void;
}) {
  return (
    <div className="lot-masses">
      <FirstFew items={lots} count={20} more={50}>
        {(few) =>
          few.map(({ id, name, remainingMassKg }) => (
            <div key={id}>
              <TakeLot
                lot={{ id, name, leftKg: remainingMassKg }}
                label={name}
                firstKg={remainingMassKg}
                value={value}
                onChange={onChange}
              />
            </div>
          ))
        }
      </FirstFew>
    </div>
  );
}

/** A lot to tick, and how much of it is taken: at first `firstKg`. */
export function TakeLot({
  lot: { id, name, leftKg },
  label,
  firstKg,
  value,
  onChange,
}: {
  lot: { id: string; name: string; leftKg: number };
  label: string;
  firstKg: number;
  value: LotMass[];
  onChange: (value: LotMass[]) => void;
}) {
  const { units, massUnit, mass } = useUnitWords();
  const chosen = value.find(({ lotId }) => lotId === id);
  return (
    <>
      <Checkbox
        label={label}
        description={text.batches.of(mass(leftKg))}
        checked={chosen !== undefined}
        onChange={(event) =>
          onChange(
            event.currentTarget.checked
              ? [...value, { lotId: id, massKg: firstKg }]
              : value.filter((one) => one !== chosen),
          )
        }
      />
      {chosen !== undefined && (
        <NumberInput
          aria-label={`${name}: ${text.batches.mass(massUnit)}`}
          suffix={` ${massUnit}`}
          min={0}
          decimalScale={3}
          hideControls
          inputMode="decimal"
          value={typedMass(chosen.massKg, units)}
          onChange={(typed) =>
            onChange(
              value.map((one) =>
                one === chosen ? { lotId: id, massKg: kgFrom(Number(typed), units) } : one,
              ),
            )
          }
        />
      )}
    </>
  );
}
