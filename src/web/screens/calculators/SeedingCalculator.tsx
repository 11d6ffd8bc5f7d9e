import { SegmentedControl, Text } from '@mantine/core';
import { useState } from 'react';
import { answer, api } from '../../api/client';
import type { components } from '../../api/schema';
import { text } from '../../text';
import { MassField } from '../../ui/MassField';
import { NumberField } from '../../ui/NumberField';
import { TemperatureField } from '../../ui/TemperatureField';
import { useUnitWords } from '../../ui/units';
import { Asked } from './Asked';
import { Basis } from './Basis';
import { useReckoning } from './use-reckoning';

const words = text.calculators;

type Request = components['schemas']['SeedingRequest'];

export function SeedingCalculator() {
  const { mass, temperature, massUnit, temperatureUnit } = useUnitWords();
  const [honeyKg, setHoney] = useState<number | null>(25);
  const [percent, setPercent] = useState<number | null>(10);
  const [convention, setConvention] = useState<Request['convention']>('perHoney');
  const [honeyC, setHoneyC] = useState<number | null>(24);
  const [seedC, setSeedC] = useState<number | null>(18);
  const asked =
    honeyKg === null || percent === null
      ? null
      : {
          honeyKg,
          percent,
          convention,
          ...(honeyC !== null && { honeyC }),
          ...(seedC !== null && { seedC }),
        };
  const query = useReckoning('seeding', asked, (body) =>
    answer(api.POST('/api/v1/calculations/seeding', { body })),
  );
  return (
    <Asked
      query={query}
      fields={
        <>
          <MassField label={words.honey(massUnit)} valueKg={honeyKg} onChange={setHoney} />
          <NumberField label={words.percent} most={100} value={percent} onChange={setPercent} />
          <SegmentedControl
            aria-label={words.convention}
            value={convention}
            onChange={setConvention}
            data={[
              { value: 'perHoney', label: words.conventions.perHoney },
              { value: 'ofBlend', label: words.conventions.ofBlend },
            ]}
          />
          <TemperatureField
            label={words.honeyTemperature(temperatureUnit)}
            valueC={honeyC}
            onChange={setHoneyC}
          />
          <TemperatureField
            label={words.seedTemperature(temperatureUnit)}
            valueC={seedC}
            onChange={setSeedC}
          />
        </>
      }
    >
      {({ masses, blendHeat, warning, ...basis }) => (
        <>
          <Text size="xl" fw={600}>
            {words.seedResult(mass(masses.seedKg), mass(masses.honeyKg), mass(masses.blendKg))}
          </Text>
          <Shares honeyKg={masses.honeyKg} seedKg={masses.seedKg} />
          {blendHeat !== null && (
            <Text>
              {words.blendAt(temperature(blendHeat.temperatureC))}{' '}
              {words.blendVerdicts[blendHeat.verdict]}
            </Text>
          )}
          {warning !== null && <Text fw={600}>{warning}</Text>}
          <Basis of={basis} />
        </>
      )}
    </Asked>
  );
}

function Shares({ honeyKg, seedKg }: { honeyKg: number; seedKg: number }) {
  const seed = (100 * seedKg) / (honeyKg + seedKg);
  return (
    <svg viewBox="0 0 100 16" className="picture" role="img" aria-label={words.picture}>
      <rect x="0" y="0" width={100 - seed} height="9" fill="var(--mantine-color-comb-4)" />
      <rect x={100 - seed} y="0" width={seed} height="9" fill="var(--seed)" />
      <text x="0" y="14.5" fontSize="4" fill="currentColor">
        {words.honeyPart}
      </text>
      <text x="100" y="14.5" fontSize="4" textAnchor="end" fill="currentColor">
        {words.seedPart}
      </text>
    </svg>
  );
}
