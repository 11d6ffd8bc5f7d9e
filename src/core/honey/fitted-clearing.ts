import type { TemperatureAt } from './air-plan';
import { MELTING_ENTHALPY_J_PER_KG, MOST_CRYSTALS_PERCENT } from './crystals';
import type { Estimate, WarmingFit } from './fit-warming';
import type { PailGroup } from './pail-group';
import { studentT95 } from './student-t';
import { warmPails } from './warm-pails';

export interface FittedClearingQuestion {
  fit: Extract<WarmingFit, { kind: 'fitted' }>;
  /** As the fit took it, and where the next warming starts; its films and melting heat are not used. */
  pail: Omit<PailGroup, 'count' | 'inAtHours' | 'clear'>;
  /** Around the pail, from hour 0 or earlier; after the last it holds. */
  airReadings: readonly TemperatureAt[];
  /** The coldest point must pass it. */
  clearC: number;
  /** Longer than this it is not warmed. */
  mostHours: number;
}

/** For the derivatives: a part of the film, and g of crystals per 100 g. */
const FILM_NUDGE = 0.02;
const CRYSTAL_NUDGE_PERCENT = 0.5;

/**
 * After how many hours is a pail clear whose film and crystals a logged warm-up told?
 *
 * By {@link warmPails} at the best fit. Its error from those of film and crystals, which go together (a faster film with more crystals
 * warms much alike), by the delta method: derivatives by differences times their covariance; Student's t for 95 %. Where the pail
 * starts is given, so the fit's start adds no error.
 * Source: Seber & Wild 1989, Nonlinear Regression, ch. 5 (linear approximation).
 * Range: that of warm-pails.ts. undefined: not clear within `mostHours`.
 * Example: a film of 6.5 ± 0.1 W/m²·K and 14 ± 0.5 % of crystals, 12 °C in air of 45 °C, 25 kg: about 28 hours.
 *
 * @throws RangeError outside that range.
 */
export function fittedClearing(question: FittedClearingQuestion): Estimate | undefined {
  const { fit } = question;
  const film = fit.filmWPerM2K.value;
  const crystals = fit.crystalPercent.value;
  const value = clearAtHours(question, film, crystals);
  // Towards faster, so that a pail that clears in time still does when nudged.
  const filmNudge = film * FILM_NUDGE;
  const crystalNudge =
    crystals >= CRYSTAL_NUDGE_PERCENT ? -CRYSTAL_NUDGE_PERCENT : CRYSTAL_NUDGE_PERCENT;
  const withFilm = clearAtHours(question, film + filmNudge, crystals);
  const withCrystals = clearAtHours(question, film, crystals + crystalNudge);
  if (value === undefined || withFilm === undefined || withCrystals === undefined) return undefined;

  const slopes = [(withFilm - value) / filmNudge, (withCrystals - value) / crystalNudge];
  const variance = slopes.reduce(
    (sum, one, row) =>
      sum +
      slopes.reduce(
        (part, other, column) =>
          part + one * other * ((fit.covariance[row] as number[])[column] as number),
        0,
      ),
    0,
  );
  const standardError = Math.sqrt(Math.max(0, variance));
  const width = studentT95(fit.degreesOfFreedom) * standardError;
  return {
    value,
    standardError,
    lower: Math.max(0, value - width),
    upper: value + width,
  };
}

function clearAtHours(
  { pail, airReadings, clearC, mostHours }: FittedClearingQuestion,
  film: number,
  crystalPercent: number,
): number | undefined {
  const crystals = Math.min(MOST_CRYSTALS_PERCENT, Math.max(0, crystalPercent));
  const meltingHeatJPerKg = (crystals / 100) * MELTING_ENTHALPY_J_PER_KG;
  const { groups } = warmPails({
    pails: [
      {
        ...pail,
        count: 1,
        honey: { ...pail.honey, meltingHeatJPerKg },
        films: { sideWPerM2K: film, topWPerM2K: film, bottomWPerM2K: film },
      },
    ],
    air: { kind: 'logged', readings: airReadings },
    untilHours: mostHours,
    clearC,
    stopWhenClear: true,
  });
  return groups[0]?.clearAtHours;
}
