import { Text } from '../platform/fields';
import { Texts } from '../platform/list-fields';

/** What every calculation tells beside its numbers, so that nobody has to take them on trust. */
export class Basis {
  @Text({ max: 2000, is: 'How the numbers come about.' })
  method!: string;

  @Text({ max: 2000, is: 'Where the figures are from: author, year, title.' })
  source!: string;

  @Text({ max: 1000, is: 'For what the method holds.' })
  validRange!: string;

  @Texts({ max: 300, most: 10, is: 'What can hurt somebody or spoil the honey.' })
  cautions!: string[];
}
