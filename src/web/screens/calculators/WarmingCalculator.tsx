import { Text } from '@mantine/core';
import { lazy, Suspense, useState } from 'react';
import { answer, api } from '../../api/client';
import { text } from '../../text';
import { figures } from '../../ui/numbers';
import { MassField } from '../../ui/MassField';
import { NumberField } from '../../ui/NumberField';
import { TemperatureField } from '../../ui/TemperatureField';
import { useUnitWords } from '../../ui/units';
import { Asked } from './Asked';
import { Basis } from './Basis';
import { useReckoning } from './use-reckoning';

const words = text.calculators;
const PailCurve = lazy(async () => ({ default: (await import('./PailCurve')).PailCurve }));

export function WarmingCalculator() {
  const { massUnit, temperatureUnit } = useUnitWords();
  const [count, setCount] = useState<number | null>(2);
  const [massKg, setMass] = useState<number | null>(25);
  const [airC, setAir] = useState<number | null>(45);
  const [startC, setStart] = useState<number | null>(16);
  const asked =
    count === null || massKg === null || airC === null
      ? null
      : { pails: [{ count, massKg, ...(startC !== null && { startC }) }], airC };
  const query = useReckoning('warming', asked, (body) =>
    answer(api.POST('/api/v1/calculations/warming', { body })),
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
          <TemperatureField label={words.air(temperatureUnit)} valueC={airC} onChange={setAir} />
          <TemperatureField
            label={words.start(temperatureUnit)}
            valueC={startC}
            onChange={setStart}
          />
        </>
      }
    >
      {({ inputs, groups, allClearAtHours, ...basis }) => {
        const [pails] = groups;
        return (
          <>
            <Text size="xl" fw={600}>
              {allClearAtHours === null
                ? words.neverClear
                : words.clearAt(figures(allClearAtHours, 2))}
            </Text>
            {pails !== undefined && (
              <>
                <Suspense fallback={<div className="drawing" />}>
                  <PailCurve
                    label={words.warmingCurve}
                    rows={pails.curve.map(({ atHours, coreC, surfaceC }) => ({
                      atHours,
                      solidC: surfaceC,
                      dashedC: coreC,
                    }))}
                    solidWords={words.surface}
                    dashedWords={words.core}
                    levelC={inputs.clearC ?? 40}
                    markAtHours={allClearAtHours}
                  />
                </Suspense>
                <Text>
                  {words.costs(
                    figures(pails.cost.mean.hmfGainMgPerKg.least, 2),
                    figures(pails.cost.mean.hmfGainMgPerKg.most, 2),
                    figures(pails.cost.mean.diastaseLeftPercent, 2),
                  )}
                </Text>
              </>
            )}
            <Basis of={basis} />
          </>
        );
      }}
    </Asked>
  );
}
