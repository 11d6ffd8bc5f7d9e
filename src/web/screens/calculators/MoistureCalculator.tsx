import { NumberInput, Text } from '@mantine/core';
import { useState } from 'react';
import { answer, api } from '../../api/client';
import { text } from '../../text';
import { TemperatureField } from '../../ui/TemperatureField';
import { useUnitWords } from '../../ui/units';
import { Asked } from './Asked';
import { Basis } from './Basis';
import { ClassScale } from './ClassScale';
import { moistureClasses } from './moisture-classes';
import { useReckoning } from './use-reckoning';
import { decimals } from '../../ui/numbers';

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
            {words.moistureResult(decimals(moisturePercent, 1))}
          </Text>
          <ClassScale
            label={words.moistureScale}
            classes={moistureClasses}
            marks={[{ at: moisturePercent }]}
          />
          <Basis of={basis} />
        </>
      )}
    </Asked>
  );
}
