import { NumberInput } from '@mantine/core';
import { celsiusFrom, typedTemperature, useUnitWords } from './units';

/** A temperature in the person's unit; the value is in °C, none while the field is empty. */
export function TemperatureField({
  label,
  description,
  valueC,
  onChange,
}: {
  label: string;
  description?: string;
  valueC: number | null;
  onChange: (valueC: number | null) => void;
}) {
  const { units } = useUnitWords();
  return (
    <NumberInput
      label={label}
      description={description}
      decimalScale={1}
      hideControls
      inputMode="decimal"
      value={valueC === null ? '' : typedTemperature(valueC, units)}
      onChange={(typed) => onChange(typed === '' ? null : celsiusFrom(Number(typed), units))}
    />
  );
}
