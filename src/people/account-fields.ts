import { applyDecorators } from '@nestjs/common';
import { ApiProperty } from '@nestjs/swagger';
import { Transform } from 'class-transformer';
import { IsString, ValidateBy } from 'class-validator';
import { lengthBetween } from '../platform/field-checks';
import { Text } from '../platform/fields';

/** An e-mail address, read in lower case. Plain ASCII, as a browser's own e-mail field takes it. */
export function Email(): PropertyDecorator {
  return applyDecorators(
    Text({ max: 254, pattern: /^[!-?A-~]+@[!-?A-~]+$/, example: 'ada@example.org' }),
    Transform(
      ({ value }) => (typeof value === 'string' ? value.toLowerCase() : (value as unknown)),
      {
        toClassOnly: true,
      },
    ),
  );
}

/** A password, byte for byte as it was sent: any characters, blanks at the ends too. A present one may be as short as it likes. */
export function Password(options: { is: string; min?: number }): PropertyDecorator {
  const { is, min = 1 } = options;
  return applyDecorators(
    ApiProperty({
      type: String,
      format: 'password',
      minLength: min,
      maxLength: 128,
      description: is,
    }),
    IsString({ message: 'must be text' }),
    ...lengthBetween(min, 128),
    ValidateBy({
      name: 'wellFormed',
      validator: {
        // Half a surrogate pair has no bytes of its own: different passwords would become one.
        validate: (text) => typeof text === 'string' && text.isWellFormed(),
        defaultMessage: () => 'must be well-formed Unicode',
      },
    }),
  );
}
