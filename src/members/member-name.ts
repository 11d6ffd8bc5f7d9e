import { Id, Text } from '../platform/fields';

/** A member, as told by what he has to do with. */
export class MemberName {
  @Id()
  id!: string;

  @Text({ max: 100 })
  name!: string;
}
