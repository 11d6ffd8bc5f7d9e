import { Text } from '@mantine/core';
import { text } from '../../text';

/** How something was reckoned, from whom the figures are, for what they hold, and what can hurt somebody. */
export function Basis({
  of: { method, source, validRange, cautions },
}: {
  of: { method: string; source: string; validRange: string; cautions: string[] };
}) {
  return (
    <>
      {cautions.map((caution) => (
        <Text key={caution} mt="xs">
          {caution}
        </Text>
      ))}
      <details>
        <summary>{text.calculators.how}</summary>
        <Text size="sm" mt="xs">
          {method}
        </Text>
        <Text size="sm" mt="xs">
          {source}
        </Text>
        <Text size="sm" mt="xs">
          {text.calculators.range(validRange)}
        </Text>
      </details>
    </>
  );
}
