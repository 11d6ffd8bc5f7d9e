import { Injectable } from '@nestjs/common';
import { takeBackMinutes } from '../core/batches/take-back';
import { tasksOfBatch, type BatchTask } from '../core/batches/tasks-of-batch';
import { Refusal } from '../core/refusal';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { Database } from '../platform/database';
import { kgOf } from '../platform/fields';
import { localDay } from '../platform/local-time';
import {
  SettingForecastService,
  type ExpectedSetting,
} from '../setting-forecast/setting-forecast.service';
import { isInRoom, toHoney } from './honey-in-room';
import { returnRequest, taskRequest } from './task-request';
import { taskCautions, taskSentence } from './task-words';
import { todayRow, type TodayBatch, type TodayBooking, type TodayRow } from './today-rows';
import type { TodayQuery } from './today.requests';
import type { TodayResponse, TodayTask } from './today.responses';
import { undoOf } from './undo';

const dayMs = 86_400_000;
const minuteMs = 60_000;

/** What is to be done now and next. */
@Injectable()
export class TodayService {
  constructor(
    private readonly database: Database,
    private readonly forecasts: SettingForecastService,
    private readonly clock: Clock,
  ) {}

  async today(caller: ClubCaller, { whose, daysAhead }: TodayQuery): Promise<TodayResponse> {
    const { clubId, memberId } = caller;
    const now = this.clock.now();
    const undoFrom = new Date(now.getTime() - takeBackMinutes * minuteMs);
    const [row] = await this.database.rows<TodayRow>(
      todayRow(clubId, whose === 'all' ? null : memberId, now, undoFrom),
    );
    if (row === undefined) throw new Refusal('not-found');
    const setting = row.batches.filter((batch) => isInRoom(batch) && hasSeed(batch));
    const expected = await this.forecasts.expected(
      clubId,
      setting.map(({ id }) => id),
    );

    const path = `/api/v1/clubs/${clubId}`;
    const until = now.getTime() + daysAhead * dayMs;
    const tasks = [
      ...row.batches.flatMap((batch) => ofBatch(path, row, batch, expected.get(batch.id), now)),
      ...row.bookings.flatMap((booking) => ofBooking(path, row, booking, now)),
      ...ofLoans(path, row, now),
    ].filter(
      ({ notBefore, dueAt }) => Date.parse(notBefore ?? dueAt ?? now.toISOString()) <= until,
    );
    return {
      at: wholeMinute(now).toISOString(),
      tasks: tasks.sort(byUrgency),
      honey: row.batches
        .filter(isInRoom)
        .map((batch) => toHoney(batch, expected.get(batch.id), now.getTime())),
      undo: undoOf(path, row.batches, memberId, now.getTime()),
    };
  }
}

/** What is said goes by the minute, so that who asks again soon gets the same answer. */
function wholeMinute(now: Date): Date {
  return new Date(Math.floor(now.getTime() / minuteMs) * minuteMs);
}

function hasSeed({ steps }: TodayBatch): boolean {
  return steps.some(({ kind }) => kind === 'seeded');
}

function ofBatch(
  path: string,
  { timeZone }: TodayRow,
  batch: TodayBatch,
  expected: ExpectedSetting | undefined,
  now: Date,
): TodayTask[] {
  const known = { ...batch, expectedAt: expected?.likelyAt ?? null };
  return tasksOfBatch(known, now.getTime()).map((task) => {
    const booking = batch.bookings.find(({ id }) => id === task.bookingId) ?? null;
    return {
      ...timesOf(task, now),
      kind: task.kind,
      sentence: taskSentence(task, batch.name, booking, timeZone),
      member: { id: batch.memberId, name: batch.memberName },
      batch: { id: batch.id, name: batch.name },
      bookingId: task.bookingId,
      loanId: null,
      request: taskRequest(path, task, batch, wholeMinute(now)),
      cautions: taskCautions(task.kind),
    };
  });
}

/** A booking without a batch asks for nothing but that its places are cleared. */
function ofBooking(
  path: string,
  { timeZone }: TodayRow,
  booking: TodayBooking,
  now: Date,
): TodayTask[] {
  const alone = { steps: [], bookings: [booking], lastLookAt: null, expectedAt: null };
  return tasksOfBatch(alone, now.getTime())
    .filter(({ kind }) => kind === 'clear')
    .map((task) => ({
      ...timesOf(task, now),
      kind: task.kind,
      sentence: taskSentence(task, null, booking, timeZone),
      member: { id: booking.memberId, name: booking.memberName },
      batch: null,
      bookingId: booking.id,
      loanId: null,
      request: taskRequest(path, task, null, wholeMinute(now)),
      cautions: [],
    }));
}

/** Loans with a day by which as much is wanted back. */
function ofLoans(path: string, { loans, timeZone }: TodayRow, now: Date): TodayTask[] {
  return loans.map((loan) => {
    const lastDay = localDay(new Date(loan.lateFrom - 1), timeZone);
    return {
      ...timesOf({ notBefore: null, dueAt: loan.lateFrom }, now),
      kind: 'return-loan' as const,
      sentence: `Give ${loan.lenderName} ${kgOf(loan.owedMassG)} kg of seed back for “${loan.lotName}” by ${lastDay}.`,
      member: { id: loan.borrowerId, name: loan.borrowerName },
      batch: null,
      bookingId: null,
      loanId: loan.id,
      request: returnRequest(path, loan, wholeMinute(now)),
      cautions: [],
    };
  });
}

function timesOf({ notBefore, dueAt }: Pick<BatchTask, 'notBefore' | 'dueAt'>, now: Date) {
  const late = dueAt !== null && now.getTime() >= dueAt;
  return {
    notBefore: notBefore === null ? null : new Date(notBefore).toISOString(),
    dueAt: dueAt === null ? null : new Date(dueAt).toISOString(),
    isOpen: notBefore === null || notBefore <= now.getTime(),
    late,
    lateMinutes: late ? Math.floor((now.getTime() - dueAt) / minuteMs) : null,
  };
}

function byUrgency(a: TodayTask, b: TodayTask): number {
  return timeOf(a) - timeOf(b);
}

function timeOf({ dueAt, notBefore }: TodayTask): number {
  return Date.parse(dueAt ?? notBefore ?? '2100-01-01T00:00:00Z');
}
