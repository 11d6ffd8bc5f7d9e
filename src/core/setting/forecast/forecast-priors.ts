/**
 * What is taken for likely of how honey sets before a club's own batches are looked at. Wide on purpose:
 * a dozen batches outweigh it.
 *
 * Together these say of a batch of a club without any: as likely as not within 14.5 days, with 80
 * percent certainty within about 6 to 35 days: "a week to a month" (common practice, no source). The
 * single figures are chosen so that this comes out; none is measured.
 */
export const FORECAST_PRIORS = {
  /** Half of all clubs' batches set before this day: the middle of a week and a month, on the logarithm. */
  medianDays: Math.sqrt(7 * 30),
  /** Standard deviations are on the natural logarithm of days. Of clubs about that day. */
  betweenClubs: 0.4,
  /** The spread of floral sources about their club's mean is half-normal with this. */
  betweenSources: 0.3,
  /** The spread of batches that are alike in all that is known: half of all clubs have less. */
  betweenBatches: 0.36,
  /** How far that spread differs from club to club, on its own logarithm. */
  betweenBatchesDiffers: 0.4,
  /** What one more of each adds to the logarithm of days, up or down. */
  perTrait: {
    /** A degree. */
    temperatureC: 0.06,
    /** 2.7 times as much seed. */
    seedPercent: 0.3,
    /** Another grain of the seed. */
    seedGrain: 0.2,
    /** A hundredth of the honey. */
    moisturePercent: 0.15,
    /** 2.7 times (1 + months) since extraction. */
    honeyAgeDays: 0.2,
  },
} as const;
