import { NumberInput } from '@mantine/core';
import { kgFrom, typedMass, useUnitWords } from './units';

/** A mass in the person's unit; the value is in kg, none while the field is empty. */
export function MassField({
  label,
  description,
  valueKg,
  onChange,
  required = false,
}: {
  label: string;
  description?: string;
  valueKg: number | null;
  onChange: (valueKg: number | null) => void;
  required?: boolean;
}) {
  const { units } = useUnitWords();
  return (
    <NumberInput
      label={label}
      description={description}
      required={required}
      min={0}
      decimalScale={3}
      hideControls
      inputMode="decimal"
      value={valueKg === null ? '' : typedMass(valueKg, units)}
      onChange={(typed) => onChange(typed === '' ? null : kgFrom(Number(typed), units))}
    />
  );
}
