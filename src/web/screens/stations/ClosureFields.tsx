import { TextInput } from '@mantine/core';
import { text } from '../../text';
import { WhenField } from '../../ui/WhenField';

const words = text.stations;

export interface ClosureValues {
  startsAt: string;
  endsAt: string;
  reason: string;
}

export function ClosureFields({
  value,
  onChange,
}: {
  value: ClosureValues;
  onChange: (value: ClosureValues) => void;
}) {
  return (
    <>
      <div className="pair">
        <WhenField
          label={words.from}
          value={value.startsAt}
          onChange={(startsAt) => onChange({ ...value, startsAt })}
        />
        <WhenField
          label={words.until}
          value={value.endsAt}
          onChange={(endsAt) => onChange({ ...value, endsAt })}
        />
      </div>
      <TextInput
        label={words.reason}
        placeholder={words.reasonPlaceholder}
        required
        value={value.reason}
        onChange={(event) => onChange({ ...value, reason: event.currentTarget.value })}
      />
    </>
  );
}
