import { Text } from '@mantine/core';
import { text } from '../../text';
import { Cautions } from '../../ui/Cautions';
import { Screen } from '../../ui/Screen';

/** What the books say of honey, seed, heat and pots. */
export function Calculators() {
  return (
    <Screen title={text.calculators.title}>
      <Text className="soft">{text.calculators.intro}</Text>
      <Cautions />
    </Screen>
  );
}
