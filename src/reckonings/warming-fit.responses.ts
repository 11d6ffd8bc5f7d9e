import { cautions, cautionTopics } from '../core/cautions';
import type { Estimate } from '../core/honey/fit-warming';
import { Decimal, Id, Instant, OneOf, Part, Text, Whole } from '../platform/fields';
import { Each } from '../platform/list-fields';
import { CRYSTAL_PERCENT, FILM_W_PER_M2K } from './assumptions';
import { CautionResponse } from './reckonings.responses';
import { rounded } from './reckoned';
import { verdictOf, type WarmingVerdict } from './warming-fit-words';
import type { WarmingFitAnswer } from './warming-fit.worker';
import type { WarmedSpan, WarmingLogOfBatch } from './warming-log';
import { Assumption } from './warming.responses';

const temperature = { min: -60, max: 150, decimals: 2 };
const hours = { min: 0, max: 1000, decimals: 1 };
const any = { min: -1e6, max: 1e6, decimals: 3 };

export class Estimated {
  @Decimal(any)
  value!: number;

  @Decimal({ ...any, is: 'Where the 95 % interval begins.' })
  lower!: number;

  @Decimal({ ...any, is: 'Where it ends.' })
  upper!: number;

  @Decimal({ ...any, nullable: true, is: 'What is reckoned with before anything was logged.' })
  usual!: number | null;
}

export class AirAboutIt {
  @OneOf(['logged', 'set-point'], { is: 'set-point: no probe told, so that of its booking holds.' })
  basis!: 'logged' | 'set-point';

  @Decimal({ ...temperature, is: 'On average while it was warmed.' })
  meanC!: number;

  @Decimal({ ...temperature, is: 'The middle of what was booked.' })
  setC!: number;
}

export const closenessWords = ['close', 'rough'] as const;

export class FittedWarming {
  @Id()
  probeId!: string;

  @Text({ max: 80 })
  probeName!: string;

  @Whole({ min: 1, max: 2_147_483_647, is: 'What the probe logged while it was warmed.' })
  readings!: number;

  @Whole({ min: 1, max: 500, is: 'Into so many means they were gathered for the fit.' })
  points!: number;

  @Instant({ is: 'When it was loaded.' })
  fromAt!: string;

  @Instant({ is: 'When it was taken out, or its booking ended before.' })
  untilAt!: string;

  @Part(() => AirAboutIt)
  air!: AirAboutIt;

  @Part(() => Estimated, { is: 'How fast heat gets from the air into every face, W/m²·K.' })
  filmWPerM2K!: Estimated;

  @Part(() => Estimated, { is: 'Crystals that melted, g per 100 g of honey.' })
  crystalPercent!: Estimated;

  @Part(() => Estimated, { is: 'Of the honey when it was loaded, °C.' })
  startC!: Estimated;

  @Decimal({ min: 0, max: 100, decimals: 2, is: 'From readings to curve, one standard deviation.' })
  scatterC!: number;

  @OneOf(closenessWords, { is: 'rough: they lie more than 1 °C apart.' })
  closeness!: (typeof closenessWords)[number];

  @Decimal({ ...hours, nullable: true, is: 'From loading until the probe was at clearC.' })
  loggedHours!: number | null;

  @Decimal({
    ...hours,
    nullable: true,
    is: 'Until clear with the usual film and crystals, in the same air; null: not within ten days.',
  })
  reckonedHours!: number | null;

  @Part(() => Estimated, {
    nullable: true,
    is: 'Until clear, hours, by the fit: the same pail, air and start the next time; null: not within ten days.',
  })
  nextHours!: Estimated | null;

  @Decimal({ ...temperature, is: 'Of the honey, from which both are reckoned.' })
  nextStartC!: number;

  @Decimal({ ...temperature, is: 'Its coldest point passes it: the pail counts as clear.' })
  clearC!: number;

  @OneOf(['faster', 'slower', 'as-reckoned', 'not-comparable'], {
    is: 'as-reckoned: within a twentieth, or the log does not tell them apart.',
  })
  verdict!: WarmingVerdict;
}

export class WarmingFitResponse {
  @Id()
  batchId!: string;

  @Part(() => FittedWarming, { nullable: true })
  fit!: FittedWarming | null;

  @Text({ max: 500, nullable: true, is: 'Why nothing is fitted.' })
  why!: string | null;

  @Text({ max: 500, is: 'In one sentence: how it warmed and how long it takes the next time.' })
  inWords!: string;

  @Each(() => Assumption, { max: 20, is: 'What is taken for granted, and what follows from that.' })
  assumptions!: Assumption[];

  @Each(() => CautionResponse, { max: cautionTopics.length })
  cautions!: CautionResponse[];

  @Text({ max: 1000, is: 'How it was fitted.' })
  method!: string;
}

export const method =
  'Which film coefficient (one for every face), how many crystals and which start explain what the probe logged? Least squares between its readings and the ' +
  'reckoned core of a pail: conduction in a cylinder, crystals that melt over a range of temperatures. 95 % intervals by Student’s t from the curvature at the ' +
  'best fit, with the readings’ errors taken as independent: where the pail differs from the one reckoned with, they are too narrow. For the hours: linear ' +
  'approximation. Seber & Wild 1989, Nonlinear Regression; Carslaw & Jaeger 1959, Conduction of Heat in Solids.';

export const estimatesCaution: CautionResponse = { about: 'estimates', text: cautions.estimates };

/** Readings lie farther from the curve than a probe in a resting pail explains (own choice). */
export const ROUGH_C = 1;

export function toFittedWarming(
  log: WarmingLogOfBatch,
  span: WarmedSpan,
  answer: Extract<WarmingFitAnswer, { kind: 'fitted' }>,
): FittedWarming {
  const { fit, reckonedHours, nextHours } = answer;
  const { probe, task, air } = log;
  return {
    probeId: probe.probeId,
    probeName: probe.probeName,
    readings: probe.readings,
    points: probe.points.length,
    fromAt: new Date(span.fromMs).toISOString(),
    untilAt: new Date(span.untilMs).toISOString(),
    air: { basis: air.basis, meanC: rounded(air.meanC, 2), setC: rounded(air.setC, 2) },
    filmWPerM2K: toEstimated(fit.filmWPerM2K, FILM_W_PER_M2K),
    crystalPercent: toEstimated(fit.crystalPercent, CRYSTAL_PERCENT),
    startC: toEstimated(fit.startC, task.pail.startC),
    scatterC: rounded(fit.scatterC, 2),
    closeness: fit.scatterC > ROUGH_C ? 'rough' : 'close',
    loggedHours:
      probe.clearAt === null
        ? null
        : rounded((probe.clearAt.getTime() - span.fromMs) / 3_600_000, 1),
    reckonedHours: reckonedHours === undefined ? null : rounded(reckonedHours, 1),
    nextHours: nextHours === undefined ? null : toEstimated(nextHours, null, 1),
    nextStartC: task.pail.startC,
    clearC: task.clearC,
    verdict: verdictOf(answer),
  };
}

function toEstimated(
  { value, lower, upper }: Estimate,
  usual: number | null,
  decimals = 2,
): Estimated {
  return {
    value: rounded(value, decimals),
    lower: rounded(lower, decimals),
    upper: rounded(upper, decimals),
    usual,
  };
}
