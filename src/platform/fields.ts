import { applyDecorators } from '@nestjs/common';
import { ApiProperty, type ApiPropertyOptions } from '@nestjs/swagger';
import { Transform, Type } from 'class-transformer';
import {
  IsBoolean,
  IsIn,
  IsInt,
  IsObject,
  IsString,
  IsUUID,
  Matches,
  Max,
  Min,
  ValidateBy,
  ValidateIf,
  ValidateNested,
} from 'class-validator';
import {
  instantFrom,
  isCalendarDay,
  isDecimal,
  isStorable,
  lengthBetween,
  numberFromText,
  yesNoFromText,
} from './field-checks';

// The kinds of field that requests and answers are made of (lists: list-fields.ts). Each says once what is accepted and what the OpenAPI document tells.

export interface FieldOptions {
  /** What it is, in words; the unit too where the name does not say it. */
  is?: string;
  /** May be left out of a request. */
  optional?: boolean;
  /** May be null; in a request null means: take it away. */
  nullable?: boolean;
}

const idPattern = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/i;

/** The id of a record. */
export function Id(options: FieldOptions = {}): PropertyDecorator {
  return field(options, { type: String, format: 'uuid', maxLength: 36 }, [
    IsUUID('all', { message: 'is not an id: ids are UUIDs' }),
  ]);
}

export function isId(text: unknown): text is string {
  return typeof text === 'string' && idPattern.test(text);
}

/** Text of a bounded length, in which every character can be stored. */
export function Text(
  options: FieldOptions & { min?: number; max: number; pattern?: RegExp; example?: string },
): PropertyDecorator {
  const { min = 1, max, pattern, example } = options;
  return field(
    options,
    {
      type: String,
      minLength: min,
      maxLength: max,
      ...(pattern && { pattern: pattern.source }),
      ...(example !== undefined && { example }),
    },
    [
      IsString({ message: 'must be text' }),
      ...lengthBetween(min, max),
      ValidateBy({
        name: 'storable',
        validator: {
          validate: (text) =>
            typeof text === 'string' && isStorable(text) && (min === 0 || text.trim() !== ''),
          defaultMessage: () => 'must be readable text without the character NUL, and not blank',
        },
      }),
      ...(pattern
        ? [Matches(pattern, { message: `must look like ${example ?? pattern.source}` })]
        : []),
    ],
  );
}

/** A whole number from min to max. In a query (`fromText`) plain digits are read. */
export function Whole(
  options: FieldOptions & { min: number; max: number; fromText?: boolean },
): PropertyDecorator {
  const { min, max } = options;
  return applyDecorators(
    field(options, { type: 'integer', format: 'int32', minimum: min, maximum: max }, [
      IsInt({ message: `must be a whole number from ${min} to ${max}` }),
      Min(min, { message: `must be at least ${min}` }),
      Max(max, { message: `must be at most ${max}` }),
    ]),
    ...(options.fromText === true ? [Transform(({ value }) => numberFromText(value))] : []),
  );
}

/** A number from min to max with a limited count of decimals. */
export function Decimal(
  options: FieldOptions & { min: number; max: number; decimals: number; fromText?: boolean },
): PropertyDecorator {
  const { min, max, decimals } = options;
  return applyDecorators(
    field(options, { type: Number, minimum: min, maximum: max }, [
      isDecimal(decimals, `must be a number with at most ${decimals} decimals`),
      Min(min, { message: `must be at least ${min}` }),
      Max(max, { message: `must be at most ${max}` }),
    ]),
    ...(options.fromText === true ? [Transform(({ value }) => numberFromText(value))] : []),
  );
}

/** A mass in kilograms, to the gram. */
export function MassKg(
  options: FieldOptions & { min?: number; max?: number } = {},
): PropertyDecorator {
  return Decimal({ ...options, min: options.min ?? 0.001, max: options.max ?? 5000, decimals: 3 });
}

/** A temperature in degrees Celsius, to the tenth. */
export function TemperatureC(
  options: FieldOptions & { fromText?: boolean } = {},
): PropertyDecorator {
  return Decimal({ ...options, min: -30, max: 100, decimals: 1 });
}

/** A share in percent, to the hundredth. */
export function SharePercent(options: FieldOptions = {}): PropertyDecorator {
  return Decimal({ ...options, min: 0.01, max: 100, decimals: 2 });
}

export function YesNo(options: FieldOptions & { fromText?: boolean } = {}): PropertyDecorator {
  return applyDecorators(
    field(options, { type: Boolean }, [IsBoolean({ message: 'must be true or false' })]),
    ...(options.fromText === true ? [Transform(({ value }) => yesNoFromText(value))] : []),
  );
}

/** One word of a closed list. */
export function OneOf(
  words: readonly string[] | Record<string, string>,
  options: FieldOptions = {},
): PropertyDecorator {
  const list = Array.isArray(words) ? (words as string[]) : Object.values(words);
  return field(options, { type: String, enum: list }, [
    IsIn(list, { message: `must be one of ${list.join(', ')}` }),
  ]);
}

/** A point in time: RFC 3339 with an offset, between the years 2000 and 2100. A request's is read into a Date. */
export function Instant(options: FieldOptions = {}): PropertyDecorator {
  return applyDecorators(
    field(options, { type: String, format: 'date-time', maxLength: 35 }, [
      ValidateBy({
        name: 'instant',
        validator: {
          validate: (value) => value instanceof Date,
          defaultMessage: () =>
            'must be a time with its offset, such as 2026-05-01T09:30:00+02:00, between 2000 and 2100',
        },
      }),
    ]),
    Transform(({ value }) => instantFrom(value), { toClassOnly: true }),
  );
}

/** A day of the calendar, YYYY-MM-DD. */
export function Day(options: FieldOptions = {}): PropertyDecorator {
  return field(options, { type: String, format: 'date', maxLength: 10 }, [
    ValidateBy({
      name: 'day',
      validator: {
        validate: (value) => typeof value === 'string' && isCalendarDay(value),
        defaultMessage: () =>
          'must be a day of the calendar, such as 2026-07-31, between 2000 and 2100',
      },
    }),
  ]);
}

/** An object of a class that has fields of its own. */
export function Part(type: () => new () => object, options: FieldOptions = {}): PropertyDecorator {
  return applyDecorators(
    field(options, { type: () => type() }, [
      IsObject({ message: 'must be an object' }),
      ValidateNested(),
    ]),
    Type(type),
  );
}

/** A field as the OpenAPI document tells of it, with the checks of a value that is there. */
export function field(
  { is, optional = false, nullable = false }: FieldOptions,
  schema: ApiPropertyOptions,
  checks: PropertyDecorator[],
): PropertyDecorator {
  const presence = nullable
    ? [ValidateIf((_, value) => value !== null && !(optional && value === undefined))]
    : optional
      ? // IsOptional would let null pass, too.
        [ValidateIf((_, value) => value !== undefined)]
      : [];
  return applyDecorators(
    ApiProperty({
      ...schema,
      required: !optional,
      ...(nullable && { nullable: true }),
      ...(is !== undefined && { description: is }),
    } as ApiPropertyOptions),
    ...presence,
    ...checks,
  );
}

/** Grams of a mass in kilograms with at most three decimals. */
export function gramsOf(massKg: number): number {
  return Math.round(massKg * 1000);
}

export function kgOf(massG: number): number {
  return massG / 1000;
}

/** Tenths of a degree. */
export function deciOf(value: number): number {
  return Math.round(value * 10);
}

/** Hundredths. */
export function centiOf(value: number): number {
  return Math.round(value * 100);
}
