import { useUnits, type Units } from './choices';
import { decimals } from './numbers';

/** International avoirdupois pound: 0.45359237 kg exactly (NIST Handbook 44, 2024, appendix C). */
const kgPerLb = 0.45359237;

function massText(massKg: number, units: Units): string {
  if (units === 'imperial') return `${rounded(massKg / kgPerLb, 2)}\u00a0lb`;
  return massKg < 1 && massKg > 0
    ? `${rounded(massKg * 1000, 0)}\u00a0g`
    : `${rounded(massKg, 2)}\u00a0kg`;
}

export function temperatureText(temperatureC: number, units: Units): string {
  return units === 'imperial'
    ? `${rounded(temperatureC * 1.8 + 32, 0)}\u00a0°F`
    : `${rounded(temperatureC, 1)}\u00a0°C`;
}

/** How far two temperatures are apart. */
export function differenceText(differenceC: number, units: Units): string {
  return units === 'imperial'
    ? `${rounded(differenceC * 1.8, 1)}\u00a0°F`
    : `${rounded(differenceC, 1)}\u00a0°C`;
}

/** A number as it is typed, in the person's unit, to the API's unit. */
export function kgFrom(typed: number, units: Units): number {
  return Number((units === 'imperial' ? typed * kgPerLb : typed).toFixed(3));
}

export function celsiusFrom(typed: number, units: Units): number {
  return Number((units === 'imperial' ? (typed - 32) / 1.8 : typed).toFixed(1));
}

/** And back, to fill a field. */
export function typedMass(massKg: number, units: Units): number {
  return Number((units === 'imperial' ? massKg / kgPerLb : massKg).toFixed(3));
}

export function typedTemperature(temperatureC: number, units: Units): number {
  return Number((units === 'imperial' ? temperatureC * 1.8 + 32 : temperatureC).toFixed(1));
}

/** How this person reads masses and temperatures. */
export function useUnitWords() {
  const units = useUnits();
  return {
    units,
    massUnit: units === 'imperial' ? 'lb' : 'kg',
    temperatureUnit: units === 'imperial' ? '°F' : '°C',
    mass: (massKg: number) => massText(massKg, units),
    temperature: (temperatureC: number) => temperatureText(temperatureC, units),
  };
}

function rounded(value: number, digits: number): string {
  return decimals(value, digits);
}
