import { TextInput } from '@mantine/core';
import { useClub } from '../api/club';
import { text } from '../text';
import { instantOf, localOf } from './times';

/** A time on the clock of the club's room. The value is an instant (RFC 3339). */
export function WhenField({
  value,
  onChange,
  label = text.batches.when,
}: {
  value: string;
  onChange: (value: string) => void;
  label?: string;
}) {
  const { timeZone } = useClub();
  return (
    <TextInput
      type="datetime-local"
      label={label}
      description={timeZone}
      required
      value={localOf(value, timeZone)}
      onChange={(event) => {
        const local = event.currentTarget.value;
        if (local !== '') onChange(instantOf(local.slice(0, 16), timeZone));
      }}
    />
  );
}
