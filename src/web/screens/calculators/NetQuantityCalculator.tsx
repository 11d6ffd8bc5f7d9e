import { Text, Textarea } from '@mantine/core';
import { useState } from 'react';
import { answer, api } from '../../api/client';
import type { components } from '../../api/schema';
import { text } from '../../text';
import { MassField } from '../../ui/MassField';
import { NumberField } from '../../ui/NumberField';
import { useUnitWords } from '../../ui/units';
import { Asked } from './Asked';
import { Basis } from './Basis';
import { useReckoning } from './use-reckoning';
import { decimals } from '../../ui/numbers';

const words = text.calculators;

type Answer = components['schemas']['NetQuantityResponse'];

/** By how much a pot may fall short, whether weighed pots pass, and how many pots a batch fills. */
export function NetQuantityCalculator() {
  const { massUnit, mass } = useUnitWords();
  const [nominalG, setNominal] = useState<number | null>(500);
  const [batchKg, setBatch] = useState<number | null>(27.5);
  const [seedPutByKg, setPutBy] = useState<number | null>(2.5);
  const [weighed, setWeighed] = useState('');
  const weighedG = numbersIn(weighed);
  const asked =
    nominalG === null
      ? null
      : {
          nominalG,
          ...(weighedG.length > 0 && { weighedG }),
          ...(batchKg !== null && {
            potting: { batchKg, ...(seedPutByKg !== null && { seedPutByKg }) },
          }),
        };
  const query = useReckoning('net-quantity', asked, (body) =>
    answer(api.POST('/api/v1/calculations/net-quantity', { body })),
  );
  return (
    <Asked
      query={query}
      fields={
        <>
          <NumberField label={words.nominal} value={nominalG} onChange={setNominal} />
          <MassField label={words.batchMass(massUnit)} valueKg={batchKg} onChange={setBatch} />
          <MassField
            label={text.batches.seedPutBy(massUnit)}
            valueKg={seedPutByKg}
            onChange={setPutBy}
          />
          <Textarea
            label={words.weighed}
            description={words.weighedHint}
            autosize
            minRows={2}
            inputMode="decimal"
            value={weighed}
            onChange={(event) => setWeighed(event.currentTarget.value)}
          />
        </>
      }
    >
      {(found) => (
        <>
          {found.potting !== null && (
            <Text size="xl" fw={600}>
              {words.fills(
                decimals(found.potting.pots),
                found.potting.leftG === 0 ? words.nothing : mass(found.potting.leftG / 1000),
              )}
            </Text>
          )}
          <Text size={found.potting === null ? 'xl' : 'md'}>
            {words.mayFallShort(
              grams(found.tolerableDeficiencyG),
              grams(found.inadequateBelowG),
              grams(found.forbiddenBelowG),
            )}
          </Text>
          <PotScale found={found} weighedG={weighedG} />
          {found.weighed !== null && (
            <Text fw={600} className={found.weighed.passes ? undefined : 'late'}>
              {found.weighed.passes ? words.passes : words.fails}{' '}
              {words.weighedPots(
                found.weighed.pots,
                grams(found.weighed.meanG),
                found.weighed.inadequate,
                found.weighed.forbidden,
              )}
            </Text>
          )}
          <Basis of={found} />
        </>
      )}
    </Asked>
  );
}

/** Where a pot is short, too short to be sold, and where those weighed lie. */
function PotScale({ found, weighedG }: { found: Answer; weighedG: number[] }) {
  const { nominalG } = found.inputs;
  const { tolerableDeficiencyG, inadequateBelowG, forbiddenBelowG } = found;
  const least = nominalG - 3 * tolerableDeficiencyG;
  const most = nominalG + 2 * tolerableDeficiencyG;
  const x = (massG: number) =>
    (100 * (Math.min(most, Math.max(least, massG)) - least)) / (most - least);
  const stretches = [
    { from: least, to: forbiddenBelowG, colour: 'var(--late)', words: words.notSold },
    { from: forbiddenBelowG, to: inadequateBelowG, colour: 'var(--warm)', words: words.short },
    {
      from: inadequateBelowG,
      to: nominalG,
      colour: 'var(--mantine-color-comb-4)',
      words: words.tolerated,
    },
    { from: nominalG, to: most, colour: 'var(--good)', words: words.full },
  ];
  return (
    <svg viewBox="0 0 100 24" className="picture" role="img" aria-label={words.potScale}>
      {stretches.map(({ from, to, colour, words: name }) => (
        <g key={name}>
          <rect x={x(from)} y="8" width={x(to) - x(from)} height="6" fill={colour} />
          <text
            x={from === least ? 0 : (x(from) + x(to)) / 2}
            y="18"
            fontSize="3.6"
            textAnchor={from === least ? 'start' : 'middle'}
            fill="currentColor"
          >
            {name}
          </text>
          <text
            x={x(to)}
            y="22.5"
            fontSize="3.6"
            textAnchor={to === most ? 'end' : 'middle'}
            fill="currentColor"
          >
            {grams(to)}
          </text>
        </g>
      ))}
      {weighedG.map((massG, index) => (
        <circle key={index} cx={x(massG)} cy={5} r="1.4" fill="currentColor" fillOpacity="0.6" />
      ))}
    </svg>
  );
}

function grams(massG: number): string {
  return `${decimals(massG, 1)}\u00a0g`;
}

/** Numbers typed one after another, with spaces or on lines of their own. */
function numbersIn(typed: string): number[] {
  return typed
    .split(/[\s;]+/)
    .filter((word) => word !== '')
    .map((word) => Number(word.replace(',', '.')))
    .filter((massG) => Number.isFinite(massG));
}
