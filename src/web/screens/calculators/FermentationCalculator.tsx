import { Text } from '@mantine/core';
import { useState } from 'react';
import { answer, api } from '../../api/client';
import { text } from '../../text';
import { NumberField } from '../../ui/NumberField';
import { Asked } from './Asked';
import { Basis } from './Basis';
import { ClassScale } from './ClassScale';
import { moistureClasses } from './moisture-classes';
import { useReckoning } from './use-reckoning';
import { decimals } from '../../ui/numbers';

const words = text.calculators;

/** Whether a honey keeps, now and once it has set. */
export function FermentationCalculator() {
  const [moisturePercent, setMoisture] = useState<number | null>(17.8);
  const [yeastPerG, setYeast] = useState<number | null>(null);
  const asked =
    moisturePercent === null ? null : { moisturePercent, ...(yeastPerG !== null && { yeastPerG }) };
  const query = useReckoning('fermentation', asked, (body) =>
    answer(api.POST('/api/v1/calculations/fermentation', { body })),
  );
  return (
    <Asked
      query={query}
      fields={
        <>
          <NumberField label={words.water} value={moisturePercent} onChange={setMoisture} />
          <NumberField
            label={words.yeast}
            description={words.yeastHint}
            decimals={0}
            value={yeastPerG}
            onChange={setYeast}
          />
        </>
      }
    >
      {({ before, afterSetting, warning, ...basis }) => (
        <>
          <Text size="xl" fw={600}>
            {words.keepsNow[before.risk]}
          </Text>
          <Text size="lg">{words.keepsSet[afterSetting.risk]}</Text>
          <ClassScale
            label={words.fermentationScale(
              percentOf(before.moisturePercent),
              percentOf(afterSetting.moisturePercent),
            )}
            classes={moistureClasses}
            marks={[
              { at: before.moisturePercent, words: words.now },
              { at: afterSetting.moisturePercent, words: words.onceSet },
            ]}
          />
          {warning !== null && <Text fw={600}>{warning}</Text>}
          <Basis of={basis} />
        </>
      )}
    </Asked>
  );
}

function percentOf(percent: number): string {
  return decimals(percent, 1);
}
