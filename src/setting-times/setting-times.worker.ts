import { answerOf } from './answer/answer-of';
import type { Question } from './answer/question';
import { parseSeededBatches, type SeededBatchText } from './seeded-batch';
import type { SettingTimesResponse } from './setting-times.responses';

// Runs in a thread of its own. It loads nothing but the computing: no framework, no database.

export interface FitTask {
  text: SeededBatchText;
  question: Question;
}

export interface FitAnswer {
  answer: SettingTimesResponse;
  /** Of the answer as JSON, in characters. */
  size: number;
}

export function fit({ text, question }: FitTask): FitAnswer {
  const answer = answerOf(parseSeededBatches(text), question);
  return { answer, size: JSON.stringify(answer).length };
}
