const dayMs = 86_400_000;

/** Before that nobody expects it to have set. */
const firstLookDays = 5;
const usualDays = 3;
/** Around the day by which it is as likely to have set as not, somebody looks each day: that tells the club the most. */
const dailyFromDaysBefore = 2;
const dailyUntilDaysAfter = 5;

/**
 * When the next look at a batch that sets is due, in epoch milliseconds: on the fifth day after the seed was stirred in, then every third
 * day, and daily from two days before until five days after the day by which it is as likely to have set as not (`expectedAt`; null: not
 * known). Common practice, no source.
 *
 * `lastLookAt` is the last look that counts; null: nobody has looked. Never before the first look is due, never before `seededAt`.
 */
export function nextLook(
  seededAt: number,
  lastLookAt: number | null,
  expectedAt: number | null,
): number {
  const firstAt = seededAt + firstLookDays * dayMs;
  const usualAt = lastLookAt === null ? firstAt : Math.max(firstAt, lastLookAt + usualDays * dayMs);
  if (expectedAt === null) return usualAt;
  const dailyFrom = expectedAt - dailyFromDaysBefore * dayMs;
  const dailyUntil = expectedAt + dailyUntilDaysAfter * dayMs;
  const dailyAt = Math.max(dailyFrom, lastLookAt === null ? seededAt + dayMs : lastLookAt + dayMs);
  return dailyAt <= dailyUntil ? Math.min(usualAt, dailyAt) : usualAt;
}
