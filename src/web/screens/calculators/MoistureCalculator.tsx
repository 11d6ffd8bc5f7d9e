import { NumberInput, Text } from '@mantine/core';
import { useState } from 'react';
import { answer, api } from '../../api/client';
import { text } from '../../text';
import { TemperatureField } from '../../ui/TemperatureField';
import { useUnitWords } from '../../ui/units';
import { Asked } from './Asked';
import { Basis } from './Basis';
import { useReckoning } from './use-reckoning';

const words = text.calculators;

export function MoistureCalculator() {
  const { temperatureUnit } = useUnitWords();
  const [refractiveIndex, setIndex] = useState<number | null>(1.4925);
  const [temperatureC, setTemperature] = useState<number | null>(22);
  const asked =
    refractiveIndex === null || temperatureC === null ? null : { refractiveIndex, temperatureC };
  const query = useReckoning('moisture', asked, (body) =>
    answer(api.POST('/api/v1/calculations/moisture', { body })),
  );
  return (
    <Asked
      query={query}
      fields={
        <>
          <NumberInput
            label={words.index}
            description={words.indexHint}
            decimalScale={5}
            step={0.0005}
            hideControls
            inputMode="decimal"
            value={refractiveIndex ?? ''}
            onChange={(typed) => setIndex(typed === '' ? null : Number(typed))}
          />
          <TemperatureField
            label={words.readAt(temperatureUnit)}
            valueC={temperatureC}
            onChange={setTemperature}
          />
        </>
      }
    >
      {({ moisturePercent, ...basis }) => (
        <>
          <Text size="xl" fw={600}>
            {words.moistureResult(
              moisturePercent.toLocaleString(undefined, { maximumFractionDigits: 1 }),
            )}
          </Text>
          <Scale moisturePercent={moisturePercent} />
          <Basis of={basis} />
        </>
      )}
    </Asked>
  );
}

/** Lochhead's classes (1933): below 17.1 % safe whatever the yeasts, above 20 % always in danger. */
const classes = [
  { from: 13, to: 17.1, colour: 'var(--good)', words: words.safeBelow },
  { from: 17.1, to: 20, colour: 'var(--mantine-color-comb-5)', words: words.mayFerment },
  { from: 20, to: 25, colour: 'var(--late)', words: words.willFerment },
];

function Scale({ moisturePercent }: { moisturePercent: number }) {
  const at = (percent: number) => ((Math.min(25, Math.max(13, percent)) - 13) / 12) * 100;
  return (
    <svg viewBox="0 0 100 22" className="picture" role="img" aria-label={words.moistureScale}>
      {classes.map((one) => (
        <g key={one.from}>
          <rect
            x={at(one.from)}
            y="6"
            width={at(one.to) - at(one.from)}
            height="6"
            fill={one.colour}
          />
          <text
            x={(at(one.from) + at(one.to)) / 2}
            y="18"
            fontSize="3.4"
            textAnchor="middle"
            fill="currentColor"
          >
            {one.words}
          </text>
        </g>
      ))}
      <path d={`M${at(moisturePercent)} 5l-2.5-4h5z`} fill="currentColor" />
    </svg>
  );
}
