import { applyDecorators } from '@nestjs/common';
import { ValidateBy } from 'class-validator';
import { Text } from '../platform/fields';

/** A language (BCP 47), such as de or de-AT. */
export function Language(options: { optional?: boolean } = {}): PropertyDecorator {
  return applyDecorators(
    Text({
      ...options,
      max: 35,
      pattern: /^[A-Za-z]{2,8}(-[A-Za-z0-9]{1,8})*$/,
      example: 'de-AT',
      is: 'In which the names of countries are printed (BCP 47).',
    }),
    ValidateBy({
      name: 'language',
      validator: {
        validate: isLanguage,
        defaultMessage: () => 'must be a language, such as de or de-AT (BCP 47)',
      },
    }),
  );
}

function isLanguage(tag: unknown): boolean {
  try {
    return new Intl.DisplayNames([String(tag)], { type: 'region' }).of('AT') !== undefined;
  } catch (error) {
    if (error instanceof RangeError) return false;
    throw error;
  }
}
