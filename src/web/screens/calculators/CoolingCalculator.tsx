import { Text } from '@mantine/core';
import { lazy, Suspense, useState } from 'react';
import { answer, api } from '../../api/client';
import { text } from '../../text';
import { MassField } from '../../ui/MassField';
import { NumberField } from '../../ui/NumberField';
import { figures } from '../../ui/numbers';
import { TemperatureField } from '../../ui/TemperatureField';
import { useUnitWords } from '../../ui/units';
import { Asked } from './Asked';
import { Basis } from './Basis';
import { useReckoning } from './use-reckoning';

const words = text.calculators;
const PailCurve = lazy(async () => ({ default: (await import('./PailCurve')).PailCurve }));

/** How long warmed pails take until seed may go in. */
export function CoolingCalculator() {
  const { massUnit, temperatureUnit, temperature } = useUnitWords();
  const [count, setCount] = useState<number | null>(2);
  const [massKg, setMass] = useState<number | null>(25);
  const [startC, setStart] = useState<number | null>(42);
  const [airC, setAir] = useState<number | null>(15);
  const asked =
    count === null || massKg === null || airC === null
      ? null
      : { pails: [{ count, massKg, ...(startC !== null && { startC }) }], airC };
  const query = useReckoning('cooling', asked, (body) =>
    answer(api.POST('/api/v1/calculations/cooling', { body })),
  );
  return (
    <Asked
      query={query}
      fields={
        <>
          <NumberField
            label={words.pails}
            decimals={0}
            least={1}
            value={count}
            onChange={setCount}
          />
          <MassField label={words.pailMass(massUnit)} valueKg={massKg} onChange={setMass} />
          <TemperatureField
            label={words.takenOutAt(temperatureUnit)}
            valueC={startC}
            onChange={setStart}
          />
          <TemperatureField label={words.roomAt(temperatureUnit)} valueC={airC} onChange={setAir} />
        </>
      }
    >
      {({ inputs, groups, allBelowAtHours, ...basis }) => {
        const seedC = inputs.belowC ?? 24;
        return (
          <>
            <Text size="xl" fw={600}>
              {allBelowAtHours === null
                ? words.neverCool(temperature(seedC))
                : words.coolAt(figures(allBelowAtHours, 2), temperature(seedC))}
            </Text>
            {groups[0] !== undefined && (
              <Suspense fallback={<div className="drawing" />}>
                <PailCurve
                  label={words.coolingCurve}
                  rows={groups[0].curve.map(({ atHours, warmestC, surfaceC }) => ({
                    atHours,
                    solidC: warmestC,
                    dashedC: surfaceC,
                  }))}
                  solidWords={words.warmest}
                  dashedWords={words.surface}
                  levelC={seedC}
                  markAtHours={allBelowAtHours}
                />
              </Suspense>
            )}
            <Basis of={basis} />
          </>
        );
      }}
    </Asked>
  );
}
