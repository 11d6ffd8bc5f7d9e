import { Id, Text } from '../platform/fields';

/** A lot, as told by what has to do with it. */
export class LotName {
  @Id()
  id!: string;

  @Text({ max: 120 })
  name!: string;
}
