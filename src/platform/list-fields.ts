import { applyDecorators } from '@nestjs/common';
import { Transform, Type } from 'class-transformer';
import {
  ArrayMaxSize,
  ArrayMinSize,
  IsArray,
  IsIn,
  IsObject,
  IsString,
  Max,
  Min,
  ValidateNested,
} from 'class-validator';
import { isDecimal, listFromText } from './field-checks';
import { field, type FieldOptions } from './fields';

// The kinds of field that are lists: see fields.ts.

/** A list of words of a closed list. In a query (`fromText`) commas may stand between them. */
export function SomeOf(
  words: readonly string[] | Record<string, string>,
  options: FieldOptions & { min: number; fromText?: boolean },
): PropertyDecorator {
  const list = Array.isArray(words) ? (words as string[]) : Object.values(words);
  return applyDecorators(
    field(
      options,
      { type: String, enum: list, isArray: true, minItems: options.min, maxItems: list.length },
      [
        IsArray({ message: 'must be a list' }),
        ArrayMinSize(options.min, { message: `must name at least ${options.min}` }),
        ArrayMaxSize(list.length, { message: `must name at most ${list.length}` }),
        IsIn(list, { each: true, message: `must be of ${list.join(', ')}` }),
      ],
    ),
    ...(options.fromText === true ? [Transform(({ value }) => listFromText(value))] : []),
  );
}

/** A list of objects of a class that has fields of its own. */
export function Each(
  type: () => new () => object,
  options: FieldOptions & { min?: number; max: number },
): PropertyDecorator {
  const { min = 0, max } = options;
  return applyDecorators(
    // The arrow function's name, `type`, is how the OpenAPI package knows that it is to be called later.
    field(options, { type: () => type(), isArray: true, minItems: min, maxItems: max }, [
      // ValidateNested alone lets a list within the list pass.
      IsArray({ message: 'must be a list' }),
      IsObject({ each: true, message: 'must be a list of objects' }),
      ArrayMinSize(min, { message: `must have at least ${min} entries` }),
      ArrayMaxSize(max, { message: `must have at most ${max} entries` }),
      ValidateNested({ each: true }),
    ]),
    Type(type),
  );
}

/** A list of numbers, each from min to max with a limited count of decimals. */
export function Decimals(
  options: FieldOptions & {
    min: number;
    max: number;
    decimals: number;
    least?: number;
    most: number;
  },
): PropertyDecorator {
  const { min, max, decimals, least = 0, most } = options;
  const schema = { type: Number, isArray: true, minimum: min, maximum: max };
  return field(options, { ...schema, minItems: least, maxItems: most }, [
    IsArray({ message: 'must be a list' }),
    ArrayMinSize(least, { message: `must have at least ${least} entries` }),
    ArrayMaxSize(most, { message: `must have at most ${most} entries` }),
    isDecimal(decimals, `must be a list of numbers with at most ${decimals} decimals`, true),
    Min(min, { each: true, message: `must hold nothing below ${min}` }),
    Max(max, { each: true, message: `must hold nothing above ${max}` }),
  ]);
}

/** A list of texts of a bounded length, for answers. */
export function Texts(options: FieldOptions & { max: number; most: number }): PropertyDecorator {
  const { max, most } = options;
  const schema = { type: String, isArray: true, maxLength: max, maxItems: most };
  return field(options, schema, [
    IsArray({ message: 'must be a list' }),
    ArrayMaxSize(most, { message: `must have at most ${most} entries` }),
    IsString({ each: true, message: 'must be a list of texts' }),
  ]);
}
