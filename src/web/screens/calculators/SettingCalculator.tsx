import { NativeSelect, Text } from '@mantine/core';
import { useState } from 'react';
import { answer, api } from '../../api/client';
import type { components } from '../../api/schema';
import { text } from '../../text';
import { NumberField } from '../../ui/NumberField';
import { Asked } from './Asked';
import { Basis } from './Basis';
import { ClassScale, middlingColour, type ScaleClass } from './ClassScale';
import { plants } from './plants';
import { useReckoning } from './use-reckoning';
import { decimals } from '../../ui/numbers';

const words = text.calculators;

type Request = components['schemas']['SettingRequest'];

/** Glucose over water: thresholds of Manikis & Thrasyvoulou (2001), as the service reckons with them. */
const readinessClasses: ScaleClass[] = [
  { from: 1, to: 1.7, colour: 'var(--cool)', words: words.readiness.slow },
  { from: 1.7, to: 2.1, colour: middlingColour, words: words.readiness.medium },
  { from: 2.1, to: 2.8, colour: 'var(--good)', words: words.readiness.fast },
];

/** Whether and how readily a honey sets, by analysis or by the means of its plant. */
export function SettingCalculator() {
  const [plant, setPlant] = useState<NonNullable<Request['plant']>>(plants[0]);
  const [glucosePercent, setGlucose] = useState<number | null>(null);
  const [fructosePercent, setFructose] = useState<number | null>(null);
  const [moisturePercent, setMoisture] = useState<number | null>(null);
  const asked = {
    plant,
    ...(glucosePercent !== null && { glucosePercent }),
    ...(fructosePercent !== null && { fructosePercent }),
    ...(moisturePercent !== null && { moisturePercent }),
  };
  const query = useReckoning('setting', asked, (body) =>
    answer(api.POST('/api/v1/calculations/setting', { body })),
  );
  return (
    <Asked
      query={query}
      fields={
        <>
          <NativeSelect
            label={words.plant}
            value={plant}
            onChange={(event) => setPlant(event.currentTarget.value as typeof plant)}
            data={[...plants]}
          />
          <NumberField
            label={words.glucose}
            description={words.ifMeasured}
            value={glucosePercent}
            onChange={setGlucose}
          />
          <NumberField
            label={words.fructose}
            description={words.ifMeasured}
            value={fructosePercent}
            onChange={setFructose}
          />
          <NumberField
            label={words.water}
            description={words.ifMeasured}
            value={moisturePercent}
            onChange={setMoisture}
          />
        </>
      }
    >
      {({ willSet, readiness, glucoseToWater, measuresDisagree, composition, ...basis }) => (
        <>
          <Text size="xl" fw={600}>
            {words.willSet[willSet]} {words.setsHow[readiness]}
          </Text>
          <ClassScale
            label={words.settingScale(decimals(glucoseToWater))}
            classes={readinessClasses}
            marks={[{ at: glucoseToWater }]}
          />
          {measuresDisagree && <Text fw={600}>{words.disagree}</Text>}
          <ul className="plain-list">
            {composition.map(({ what, percent, from }) => (
              <li key={what}>
                {words.part(words.parts[what], decimals(percent), words.partFrom[from])}
              </li>
            ))}
          </ul>
          <Basis of={basis} />
        </>
      )}
    </Asked>
  );
}
