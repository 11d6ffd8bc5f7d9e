import type { SettingQuantile, SettingTimesResponse } from '../setting-times.responses';
import { batchesInWords, daysInWords } from './words';

/** The answer for whoever knows no statistics. */
export function summaryInWords(told: Omit<SettingTimesResponse, 'inWords'>): string {
  const { all, comparison, ranking, adjusted } = told;
  if (all.batchCount === 0) return 'No batch has been seeded in this time.';
  const seen = `${all.setCount} of ${batchesInWords(all.batchCount)} ${all.setCount === 1 ? 'has' : 'have'} been seen set.`;
  const sentences = [
    seen,
    all.median === null
      ? `That is too little to say how long such honey takes. ${all.tooFew ?? ''}`.trim()
      : medianInWords(all.median),
    comparison.inWords,
    ...(ranking.order === null || ranking.order.length < 2 ? [] : [ranking.inWords]),
    ...(adjusted === null ? [] : [adjusted.inWords]),
  ];
  return sentences.join(' ').slice(0, LONGEST);
}

const LONGEST = 2000;

function medianInWords({ quotedDays, leftDays, lowerDays, upperDays }: SettingQuantile): string {
  if (quotedDays === null) {
    return `Fewer than half of them had set when they were last looked at: it takes more than ${daysInWords(leftDays)}.`;
  }
  const half = `Half of them had set within about ${daysInWords(quotedDays)} of the seeding`;
  const from = daysInWords(lowerDays);
  if (upperDays === null) return `${half}; chance leaves open anything from ${from} up.`;
  const to = daysInWords(upperDays);
  return from === to ? `${half}.` : `${half}; chance leaves open ${from} to ${to}.`;
}
