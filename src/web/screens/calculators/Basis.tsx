import { Text } from '@mantine/core';
import { text } from '../../text';

/** How something was reckoned, from whom the figures are, for what they hold, and what can hurt somebody. */
export function Basis({
  of: { method, source, validRange, cautions, filmNote },
}: {
  of: { method: string; source: string; validRange: string; cautions: string[]; filmNote?: string };
}) {
  return (
    <>
      <ul className="cautions">
        {cautions.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
      <details>
        <summary>{text.calculators.how}</summary>
        <Text size="sm" mt="xs">
          {method}
        </Text>
        {filmNote !== undefined && (
          <Text size="sm" mt="xs">
            {filmNote}
          </Text>
        )}
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
