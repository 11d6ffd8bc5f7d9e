import { NativeSelect } from '@mantine/core';

/** A choice among all time zones (IANA names) that the browser knows, the chosen one first. */
export function TimeZoneField({
  label,
  value,
  onChange,
}: {
  label: string;
  value: string;
  onChange: (timeZone: string) => void;
}) {
  return (
    <NativeSelect
      label={label}
      value={value}
      data={[...new Set([value, ...Intl.supportedValuesOf('timeZone'), 'UTC'])]}
      onChange={(event) => onChange(event.currentTarget.value)}
    />
  );
}
