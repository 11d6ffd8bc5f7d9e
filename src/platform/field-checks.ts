import { ValidateBy } from 'class-validator';

// What the kinds of field look for in a value, and how those of a query are read from text.

/** Counts code points, as JSON Schema does; MinLength and MaxLength do not count variation selectors. */
export function lengthBetween(min: number, max: number): PropertyDecorator[] {
  const check = (name: string, isFine: (length: number) => boolean, words: string) =>
    ValidateBy({
      name,
      validator: {
        validate: (text) => typeof text === 'string' && isFine(Array.from(text).length),
        defaultMessage: () => words,
      },
    });
  return [
    check('minLength', (length) => length >= min, `must have at least ${min} characters`),
    check('maxLength', (length) => length <= max, `must have at most ${max} characters`),
  ];
}

/** Whether the database can keep every character of it. */
export function isStorable(text: string): boolean {
  // PostgreSQL stores no NUL, and half a surrogate pair would be stored as something else.
  return !text.includes('\u0000') && text.isWellFormed();
}

/** IsNumber looks for a point in the number as it is written, and fails on 1e-7. */
export function isDecimal(decimals: number, words: string, each = false): PropertyDecorator {
  return ValidateBy(
    {
      name: 'decimal',
      validator: {
        validate: (value) =>
          typeof value === 'number' &&
          Number.isFinite(value) &&
          Number(value.toFixed(decimals)) === value,
        defaultMessage: () => words,
      },
    },
    { each },
  );
}

/** What plain digits mean, or the value as it came. */
export function numberFromText(value: unknown): unknown {
  return typeof value === 'string' && /^-?\d{1,15}(\.\d{1,9})?$/.test(value)
    ? Number(value)
    : value;
}

export function yesNoFromText(value: unknown): unknown {
  if (value === 'true') return true;
  return value === 'false' ? false : value;
}

export function listFromText(value: unknown): unknown {
  return typeof value === 'string' ? value.split(',') : value;
}

/** The instant that a text of RFC 3339 means, or the value as it came when it is none. */
export function instantFrom(value: unknown): unknown {
  if (typeof value !== 'string') return value;
  const parts = /^(\d{4}-\d\d-\d\d)[Tt]\d\d:\d\d(:\d\d(\.\d{1,6})?)?([Zz]|[+-]\d\d:\d\d)$/.exec(
    value,
  );
  if (parts === null || !isCalendarDay(parts[1] ?? '')) return value;
  const instant = new Date(value);
  return isInOurTime(instant) ? instant : value;
}

/** Whether it is a day that there is, between the years 2000 and 2100. */
export function isCalendarDay(text: string): boolean {
  if (!/^\d{4}-\d\d-\d\d$/.test(text)) return false;
  const day = new Date(`${text}T00:00:00Z`);
  // Date reads 30 February as 2 March.
  return isInOurTime(day) && day.toISOString().startsWith(text);
}

function isInOurTime(instant: Date): boolean {
  const year = instant.getUTCFullYear();
  return year >= 2000 && year < 2100;
}
