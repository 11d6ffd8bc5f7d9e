import { ValidateBy } from 'class-validator';
import { applyDecorators } from '@nestjs/common';
import { Text } from '../platform/fields';

/** A name of the IANA time zone database, such as Europe/Berlin. */
export function TimeZone(options: { optional?: boolean } = {}): PropertyDecorator {
  return applyDecorators(
    Text({
      ...options,
      max: 50,
      pattern: /^[A-Za-z][A-Za-z0-9_+/-]*$/,
      example: 'Europe/Berlin',
    }),
    ValidateBy({
      name: 'timeZone',
      validator: {
        validate: isTimeZone,
        defaultMessage: () =>
          'must be a name of the IANA time zone database, such as Europe/Berlin',
      },
    }),
  );
}

function isTimeZone(name: unknown): boolean {
  try {
    new Intl.DateTimeFormat('en', { timeZone: String(name) });
    return true;
  } catch (error) {
    if (error instanceof RangeError) return false;
    throw error;
  }
}
