import { Id, OneOf, Text, YesNo } from '../platform/fields';
import { Grain } from '../platform/prisma-client/enums';

export class FloralSourceResponse {
  @Id()
  id!: string;

  @Text({ max: 100 })
  name!: string;

  @OneOf(Grain, { is: 'In which this honey sets by itself.' })
  grain!: Grain;

  @YesNo({ is: 'Whether it sets at all.' })
  sets!: boolean;

  @Text({ min: 0, max: 1000 })
  note!: string;
}

export interface FloralSourceRow {
  id: string;
  name: string;
  grain: Grain;
  sets: boolean;
  note: string;
}

export function toFloralSourceResponse(row: FloralSourceRow): FloralSourceResponse {
  return { id: row.id, name: row.name, grain: row.grain, sets: row.sets, note: row.note };
}
