import { locale } from '../text/locale';

/** A number with so many decimals at most. */
export function decimals(value: number, most = 3): string {
  return value.toLocaleString(locale, { maximumFractionDigits: most });
}

/** A reckoned number, to the figures that it is worth. */
export function figures(value: number, most = 3): string {
  return value.toLocaleString(locale, { maximumSignificantDigits: most });
}
