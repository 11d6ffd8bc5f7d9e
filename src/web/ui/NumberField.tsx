import { NumberInput } from '@mantine/core';

/** A number without a unit of its own; none while the field is empty. */
export function NumberField({
  label,
  description,
  value,
  onChange,
  least = 0,
  most,
  decimals,
}: {
  label: string;
  description?: string;
  value: number | null;
  onChange: (value: number | null) => void;
  least?: number;
  most?: number;
  /** So many at most; 0: whole numbers alone. */
  decimals?: number;
}) {
  const isWhole = decimals === 0;
  return (
    <NumberInput
      label={label}
      description={description}
      min={least}
      {...(most !== undefined && { max: most })}
      {...(decimals !== undefined && { decimalScale: decimals })}
      allowDecimal={!isWhole}
      hideControls
      inputMode={isWhole ? 'numeric' : 'decimal'}
      value={value ?? ''}
      onChange={(typed) => onChange(typed === '' ? null : Number(typed))}
    />
  );
}
