import { Text } from '@mantine/core';
import type { ComponentType } from 'react';
import { Link, useParams } from 'wouter';
import { text } from '../../text';
import { Cautions } from '../../ui/Cautions';
import { Screen } from '../../ui/Screen';
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
      <nav className="ways no-print" aria-label={text.calculators.title}>
        {(Object.entries(text.calculators.kinds) as [Kind, string][]).map(([one, words]) => (
          <Link
            key={one}
            href={`/calculators/${one}`}
            aria-current={one === chosen ? 'page' : undefined}
          >
            {words}
          </Link>
        ))}
      </nav>
      <section className="sheet" aria-label={text.calculators.kinds[chosen]}>
        <Calculator />
      </section>
      <Cautions />
    </Screen>
  );
}
