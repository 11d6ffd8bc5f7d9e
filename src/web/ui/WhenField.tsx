import { TextInput } from '@mantine/core';
import { useState } from 'react';
import { useClub } from '../api/club';
import { text } from '../text';
import { instantOf, localOf } from './times';

/** On its way to 2026 a year that is typed is 2, 20 and 202, and a part may be empty for a while: these stand for no time. */
const whole = /^(19|20|21)\d\d-/;

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
  /** What is being typed, and the value for which it stands; nobody is typing: none. */
  const [draft, setDraft] = useState<{ typed: string; value: string } | null>(null);
  const type = (typed: string) => {
    const instant = whole.test(typed) ? instantOf(typed, timeZone) : value;
    setDraft({ typed, value: instant });
    if (instant !== value) onChange(instant);
  };
  return (
    <TextInput
      type="datetime-local"
      label={label}
      description={timeZone}
      required
      value={draft?.value === value ? draft.typed : localOf(value, timeZone)}
      onChange={(event) => type(event.currentTarget.value.slice(0, 16))}
      onBlur={() => setDraft(null)}
    />
  );
}
