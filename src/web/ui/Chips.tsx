import { Button, Group } from '@mantine/core';

/** A choice of one among a few, each large enough for a sticky finger. */
export function Chips<Key extends string>({
  label,
  of,
  value,
  onChange,
}: {
  label: string;
  of: Record<Key, string>;
  value: Key | null;
  onChange: (value: Key) => void;
}) {
  return (
    <fieldset className="bare">
      <legend>{label}</legend>
      <Group gap="xs">
        {(Object.entries(of) as [Key, string][]).map(([key, words]) => (
          <Button
            key={key}
            size="lg"
            variant={key === value ? 'filled' : 'default'}
            aria-pressed={key === value}
            onClick={() => onChange(key)}
          >
            {words}
          </Button>
        ))}
      </Group>
    </fieldset>
  );
}
