import { Text } from '@mantine/core';
import { useState } from 'react';
import { answer, api } from '../../api/client';
import type { components } from '../../api/schema';
import { text } from '../../text';
import { NumberField } from '../../ui/NumberField';
import { figures } from '../../ui/numbers';
import { TemperatureField } from '../../ui/TemperatureField';
import { useUnitWords } from '../../ui/units';
import { Asked } from './Asked';
import { Basis } from './Basis';
import { useReckoning } from './use-reckoning';

const words = text.calculators;

export function KeepingCalculator() {
  const { temperatureUnit } = useUnitWords();
  const [temperatureC, setTemperature] = useState<number | null>(45);
  const [hours, setHours] = useState<number | null>(48);
  const asked =
    temperatureC === null || hours === null ? null : { steps: [{ temperatureC, hours }] };
  const query = useReckoning('keeping', asked, (body) =>
    answer(api.POST('/api/v1/calculations/keeping', { body })),
  );
  return (
    <Asked
      query={query}
      fields={
        <>
          <TemperatureField
            label={words.heatAt(temperatureUnit)}
            valueC={temperatureC}
            onChange={setTemperature}
          />
          <NumberField label={words.heatFor} value={hours} onChange={setHours} />
        </>
      }
    >
      {({ cost, binding, ...basis }) => (
        <>
          <Text size="xl" fw={600}>
            {words.keptHeat(
              figures(cost.hmfGainMgPerKg.least, 2),
              figures(cost.hmfGainMgPerKg.most, 2),
              figures(cost.diastaseLeftPercent, 2),
            )}
          </Text>
          <EnzymeBars cost={cost} />
          {binding !== null && (
            <Text>
              {words.daysLeft(
                words.limits[binding.limit],
                words.rules[binding.rule],
                figures(binding.daysLeft),
              )}
            </Text>
          )}
          <Basis of={basis} />
        </>
      )}
    </Asked>
  );
}

function EnzymeBars({ cost }: { cost: components['schemas']['HeatCost'] }) {
  const bars = [
    { name: words.limits.diastase, percent: cost.diastaseLeftPercent },
    { name: words.limits.invertase, percent: cost.invertaseLeftPercent },
  ];
  return (
    <svg viewBox="0 0 100 24" className="picture" role="img" aria-label={words.keepingBars}>
      {bars.map(({ name, percent }, index) => (
        <g key={name}>
          <rect x="22" y={index * 12} width="62" height="8" fill="var(--line)" />
          <rect x="22" y={index * 12} width={0.62 * percent} height="8" fill="var(--good)" />
          <text x="0" y={index * 12 + 5.5} fontSize="4" fill="currentColor">
            {name}
          </text>
          <text x="86" y={index * 12 + 5.5} fontSize="4" fill="currentColor">
            {figures(percent, 2)} %
          </text>
        </g>
      ))}
    </svg>
  );
}
