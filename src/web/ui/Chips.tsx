import { Button } from '@mantine/core';

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
      <div className="chips">
        {(Object.entries(of) as [Key, string][]).map(([key, words]) => (
          <Button
            key={key}
            variant="default"
            className="chip"
            aria-pressed={key === value}
            onClick={() => onChange(key)}
          >
            {words}
          </Button>
        ))}
      </div>
    </fieldset>
  );
}
