import { NumberInput } from '@mantine/core';

/** A number without a unit of its own; none while the field is empty. */
export function NumberField({
  label,
  description,
  value,
  onChange,
  isWhole = false,
  least = 0,
}: {
  label: string;
  description?: string;
  value: number | null;
  onChange: (value: number | null) => void;
  isWhole?: boolean;
  least?: number;
}) {
  return (
    <NumberInput
      label={label}
      description={description}
      min={least}
      allowDecimal={!isWhole}
      hideControls
      inputMode={isWhole ? 'numeric' : 'decimal'}
      value={value ?? ''}
      onChange={(typed) => onChange(typed === '' ? null : Number(typed))}
    />
  );
}
