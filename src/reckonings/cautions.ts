import { cautions, type CautionTopic } from '../core/cautions';
import type { ReckoningRow } from './reckoning-row';

export interface Caution {
  about: CautionTopic;
  text: string;
}

const HEAVY_G = 20_000;

/** What to be careful about, of what is still to be done to the batch; whoever eats it comes last. */
export function cautionsFor({ stage, honey }: Pick<ReckoningRow, 'stage' | 'honey'>): Caution[] {
  const isHeavy = honey.some(({ massG }) => massG >= HEAVY_G);
  const topics: CautionTopic[] = ['estimates'];
  switch (stage) {
    case 'planned':
    case 'loaded':
    case 'cleared':
    case 'cooled':
      if (isHeavy) topics.push('lifting');
      topics.push('burns', 'mixer', 'gear', 'law');
      break;
    case 'seeded':
      topics.push('gear', 'law');
      break;
    case 'potted':
    case 'shelved':
    case 'set':
      topics.push('law');
      break;
    case 'abandoned':
      break;
  }
  topics.push('bees', 'infants');
  return topics.map((about) => ({ about, text: cautions[about] }));
}
