import { Id, Text } from '../platform/fields';

/** A member, by name. */
export class BatchMember {
  @Id()
  id!: string;

  @Text({ max: 200 })
  name!: string;
}
