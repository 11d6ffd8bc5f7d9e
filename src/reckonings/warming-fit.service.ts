import { Injectable, type OnApplicationShutdown } from '@nestjs/common';
import { MOST_CRYSTALS_PERCENT } from '../core/honey/crystals';
import { LARGEST_FITTED_FILM } from '../core/honey/fit-warming';
import { SEEDING_C } from '../core/honey/seed-blend';
import { Refusal } from '../core/refusal';
import type { ClubCaller } from '../platform/caller';
import { ComputingThread } from '../platform/computing-thread';
import { Database } from '../platform/database';
import { deciOf } from '../platform/fields';
import { AnswerCache, contentKey } from '../setting-times/answer-cache';
import { CLEAR_C, type Assumed } from './assumptions';
import { loggedRows, type LoggedRow } from './logged-rows';
import { knownOr, NotKnown } from './reckoned';
import { reckoningRow, type ReckoningRow } from './reckoning-row';
import {
  estimatesCaution,
  method,
  ROUGH_C,
  toFittedWarming,
  type WarmingFitResponse,
} from './warming-fit.responses';
import { fitInWords } from './warming-fit-words';
import type { WarmingFitAnswer, WarmingFitTask } from './warming-fit.worker';
import { warmedSpan, warmingLog, type WarmedSpan, type WarmingLogOfBatch } from './warming-log';

type FittedValues = Extract<WarmingFitAnswer, { kind: 'fitted' }>['fit'];

const keptAnswers = 200;
/** A curve that misses its readings by so much describes something else (own choice). */
const TOO_ROUGH_C = 3;

/** How fast a pail really warmed, from what a probe in it logged. */
@Injectable()
export class WarmingFitService implements OnApplicationShutdown {
  private readonly kept = new AnswerCache<WarmingFitAnswer>(keptAnswers);
  // A fit warms some sixty pails: half a second.
  private readonly thread = new ComputingThread<WarmingFitTask, WarmingFitAnswer>(
    'reckonings/warming-fit.worker.js',
    'fit',
    'That log is too much to fit.',
  );

  constructor(private readonly database: Database) {}

  async ofBatch({ clubId }: ClubCaller, batchId: string): Promise<WarmingFitResponse> {
    const [row] = await this.database.rows<ReckoningRow>(reckoningRow(clubId, batchId));
    if (row === undefined) throw new Refusal('not-found');

    const span = warmedSpan(row);
    if (span instanceof NotKnown) return notFitted(row, span);
    const logged = await this.database.rows<LoggedRow>(loggedRows(clubId, wantedOf(row, span)));
    const log = knownOr(() => warmingLog(row, span, logged));
    if (log instanceof NotKnown) return notFitted(row, log);
    return toResponse(row, span, log, await this.answerTo(log.task));
  }

  /** By now every request has been answered. */
  async onApplicationShutdown(): Promise<void> {
    await this.thread.end();
  }

  private async answerTo(task: WarmingFitTask): Promise<WarmingFitAnswer> {
    const key = contentKey(JSON.stringify(task));
    const known = this.kept.get(key);
    if (known !== undefined) return known;
    const answer = await this.thread.run(task);
    this.kept.keep(key, answer, 1);
    return answer;
  }
}

function wantedOf(row: ReckoningRow, { fromMs, untilMs, booking }: WarmedSpan) {
  const [from, until] = [new Date(fromMs), new Date(untilMs)];
  return {
    batchId: row.batchId,
    from,
    until,
    air: { stationId: booking.stationId, from, until },
    clearDeciC: deciOf(CLEAR_C),
    seedDeciC: deciOf(SEEDING_C.cautious),
  };
}

function toResponse(
  row: ReckoningRow,
  span: WarmedSpan,
  log: WarmingLogOfBatch,
  answer: WarmingFitAnswer,
): WarmingFitResponse {
  if (answer.kind !== 'fitted') return notFitted(row, whyNot(answer), log);
  const { scatterC } = answer.fit;
  if (scatterC > TOO_ROUGH_C) {
    return notFitted(
      row,
      new NotKnown(
        `What the probe logged does not look like a resting pail that warms: the best curve misses it by ${scatterC.toFixed(1)} °C. Perhaps it was moved, or the honey was stirred.`,
      ),
      log,
    );
  }
  const roughly = scatterC > ROUGH_C ? ' Only roughly: the curve does not fit the log well.' : '';
  return {
    batchId: row.batchId,
    fit: toFittedWarming(log, span, answer),
    why: null,
    inWords: `${fitInWords(answer)}${roughly}`,
    assumptions: [...log.assumptions, ...atTheEnds(answer.fit)],
    cautions: [estimatesCaution],
    method,
  };
}

/** At the end of what is reckoned with, something else than film and crystals explains the log. */
function atTheEnds({ filmWPerM2K, crystalPercent }: FittedValues): Assumed[] {
  const isAtEnd =
    crystalPercent.value >= MOST_CRYSTALS_PERCENT || filmWPerM2K.value >= LARGEST_FITTED_FILM;
  if (!isAtEnd) return [];
  return [
    {
      text: 'The fit ended at the most that is reckoned with: probably the pail is larger or smaller than taken, or the probe did not stand in its middle. Take the hours with care.',
      source: 'own choice',
    },
  ];
}

function whyNot(answer: Exclude<WarmingFitAnswer, { kind: 'fitted' }>): NotKnown {
  switch (answer.kind) {
    case 'too-few':
      return new NotKnown(
        `At least ${answer.needed} moments of the warming must be logged, and the probe logged ${answer.readings}; readings close together count as one.`,
      );
    case 'undetermined':
      return new NotKnown(
        'The log does not tell apart how fast heat got in and how many crystals there were: it ends too early, the honey hardly got warmer, or the probe was moved.',
      );
    case 'outside':
      return new NotKnown(`Outside what the sources cover: ${answer.reason}.`);
  }
}

function notFitted(
  { batchId }: ReckoningRow,
  { reason }: NotKnown,
  log?: WarmingLogOfBatch,
): WarmingFitResponse {
  return {
    batchId,
    fit: null,
    why: reason,
    inWords: `How fast it warmed cannot be told. ${reason}`,
    assumptions: log?.assumptions ?? [],
    cautions: [estimatesCaution],
    method,
  };
}
