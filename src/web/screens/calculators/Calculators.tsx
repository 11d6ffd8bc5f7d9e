import { Text } from '@mantine/core';
import type { ComponentType } from 'react';
import { useParams } from 'wouter';
import { text } from '../../text';
import { Screen } from '../../ui/Screen';
import { Ways } from '../../ui/Ways';
import { CoolingCalculator } from './CoolingCalculator';
import { FermentationCalculator } from './FermentationCalculator';
import { KeepingCalculator } from './KeepingCalculator';
import { MoistureCalculator } from './MoistureCalculator';
import { NetQuantityCalculator } from './NetQuantityCalculator';
import { SeedingCalculator } from './SeedingCalculator';
import { SettingCalculator } from './SettingCalculator';
import { WarmingCalculator } from './WarmingCalculator';

type Kind = keyof typeof text.calculators.kinds;

const calculators: Record<Kind, ComponentType> = {
  seeding: SeedingCalculator,
  moisture: MoistureCalculator,
  warming: WarmingCalculator,
  cooling: CoolingCalculator,
  keeping: KeepingCalculator,
  fermentation: FermentationCalculator,
  setting: SettingCalculator,
  'net-quantity': NetQuantityCalculator,
};

/** What the books say of honey, seed and heat. */
export function Calculators() {
  const { kind } = useParams<{ kind?: string }>();
  const chosen = kind !== undefined && kind in calculators ? (kind as Kind) : 'seeding';
  const Calculator = calculators[chosen];
  return (
    <Screen title={text.calculators.title}>
      <Text className="soft">{text.calculators.intro}</Text>
      <Ways
        label={text.calculators.title}
        to={(Object.entries(text.calculators.kinds) as [Kind, string][]).map(([one, words]) => ({
          href: `/calculators/${one}`,
          words,
          isHere: one === chosen,
        }))}
      />
      <section className="sheet" aria-label={text.calculators.kinds[chosen]}>
        <Calculator />
      </section>
    </Screen>
  );
}
