import { ApiProperty } from '@nestjs/swagger';

/** The numbers that stand on places of a station. `is` tells which places. */
export function PlaceNumbers(options: { is?: string } = {}): PropertyDecorator {
  return ApiProperty({
    type: 'integer',
    format: 'int32',
    minimum: 1,
    maximum: 200,
    isArray: true,
    maxItems: 200,
    description: options.is ?? 'The numbers of its places.',
  });
}
