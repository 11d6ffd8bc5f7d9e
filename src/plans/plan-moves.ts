import type { Wished } from '../bookings/wished-booking';
import {
  brokenLinks,
  mendChain,
  type BrokenLink,
  type ChainRules,
  type ChainSpans,
  type MovableSlot,
} from '../core/planning/chain-move';
import { nextFreeTimes } from '../core/planning/next-free-times';
import { commonTimes, mergeSpans } from '../core/planning/runs/minute-spans';
import type { Span, StationBooking } from '../core/planning/station-times';
import { Refusal } from '../core/refusal';
import type { Duty } from '../platform/prisma-client/enums';
import type { ClubCaller } from '../platform/caller';
import type { Transaction } from '../platform/database';
import { MOST_SHELVE_MINUTES, MOST_STAND_MINUTES } from './plan-assumptions';
import { planOf, type PlanRow } from './plan-rows';
import { localDays, memberSpans, roomSpans } from './plan-times';
import { roomRows, type StationRow } from './room-rows';
import { wishOfPlan } from './wish-of-plan';

const minuteMs = 60_000;
const dayMs = 86_400_000;
/** The rest of a run is moved by so many days at most. */
const mostDays = 14;
const mostSpans = 200;

type Step = keyof ChainSpans;
const steps: readonly Step[] = ['warm', 'bench', 'cool'];

/** A booking of a plan. */
interface RunBooking {
  startsAt: Date;
  endsAt: Date;
  id: string;
  stationId: string;
  stationName: string;
  duty: Duty;
  minDeciC: number;
  maxDeciC: number;
  places: number[];
}

/** A booking of the run that is to move along. */
export interface MoveOfRest<Row> {
  row: Row;
  startsAt: Date;
  endsAt: Date;
}

export interface ChainMove<Row extends RunBooking> {
  planId: string;
  /** As it stands, and as it is wanted. */
  current: Row;
  wanted: Wished;
  /** All bookings of the plan that are not cancelled, the current one too; their stations are locked. */
  chain: readonly Row[];
  /** Undefined: it is to be asked. */
  moveTheRest: true | undefined;
  now: Date;
}

/**
 * What has to move with a booking of a plan so that the run stays possible. Nothing for a booking whose move upsets nothing. Refuses, with the run as it could be, when nobody said whether the rest may move, or when there is no way.
 */
export async function restToMove<Row extends RunBooking>(
  tx: Transaction,
  { clubId }: ClubCaller,
  move: ChainMove<Row>,
): Promise<MoveOfRest<Row>[]> {
  const { planId, current, wanted, chain, moveTheRest } = move;
  const plan = await planOf(tx, clubId, planId);
  const rules = plan && rulesOf(plan);
  if (plan === undefined || rules === undefined) return [];
  const rows = rowsByStep(plan, chain);
  const before = spansOf(rows, (row) => row);
  const after = spansOf(rows, (row) => (row.id === current.id ? wanted : row));
  const brokenBefore = brokenLinks(before, rules);
  const broken = brokenLinks(after, rules).filter((link) => !brokenBefore.includes(link));
  if (broken.length === 0) return [];

  const mended = mendChain(await movableChain(tx, clubId, plan, rows, move), rules);
  const rest = mended && movedRows(rows, mended, current.id);
  if (rest !== null && moveTheRest === true) return rest;
  throw upset(broken, move, rest);
}

function rulesOf({ stored }: PlanRow): ChainRules | undefined {
  const booked = stored.alternatives[stored.bookedAlternative ?? -1];
  const warm = booked?.slots.find(({ step }) => step === 'warm');
  if (booked === undefined || warm === undefined) return undefined;
  return {
    coolingMinutes: (Date.parse(booked.coolEnoughAt) - Date.parse(warm.endsAt)) / minuteMs,
    maxStandMinutes: MOST_STAND_MINUTES,
    maxShelveMinutes: MOST_SHELVE_MINUTES,
  };
}

type Rows<Row> = Record<Step, Row | null>;

function rowsByStep<Row extends RunBooking>({ stored }: PlanRow, chain: readonly Row[]): Rows<Row> {
  const rowOf = (step: Step) => {
    const id = stored.bookings.find((one) => one.step === step)?.bookingId;
    return chain.find((row) => row.id === id) ?? null;
  };
  return { warm: rowOf('warm'), bench: rowOf('bench'), cool: rowOf('cool') };
}

function spansOf<Row>(
  rows: Rows<Row>,
  timesOf: (row: Row) => { startsAt: Date; endsAt: Date },
): { [Slot in Step]: Span | null } {
  const span = (row: Row | null) => row && toSpan(timesOf(row));
  return { warm: span(rows.warm), bench: span(rows.bench), cool: span(rows.cool) };
}

function toSpan({ startsAt, endsAt }: { startsAt: Date; endsAt: Date }): Span {
  return { startsAt: startsAt.getTime(), endsAt: endsAt.getTime() };
}

/** Where each slot may go: the moved one to where it is wanted, what has begun nowhere, the rest to what is free while somebody can come. */
async function movableChain<Row extends RunBooking>(
  tx: Transaction,
  clubId: string,
  plan: PlanRow,
  rows: Rows<Row>,
  { chain, current, wanted, now }: ChainMove<Row>,
): Promise<{ [Slot in Step]: MovableSlot | null }> {
  const times = [...chain, wanted];
  const from = Math.max(
    Math.ceil(now.getTime() / minuteMs) * minuteMs,
    Math.min(...times.map(({ startsAt }) => startsAt.getTime())) - mostDays * dayMs,
  );
  const until = Math.max(...times.map(({ endsAt }) => endsAt.getTime())) + mostDays * dayMs;
  const ids = chain.map(({ id }) => id);
  const stations = await tx.$queryRaw<StationRow[]>(
    roomRows(clubId, new Date(from), new Date(until), ids),
  );
  const moved: StationBooking = { ...toSpan(wanted), ...placesUnknown(wanted, stations) };
  const slot = (step: Step): MovableSlot | null => {
    const row = rows[step];
    if (row === null) return null;
    if (row.id === current.id) return fixedAt(toSpan(wanted));
    if (row.startsAt <= now) return fixedAt(toSpan(row));
    const station = stations.find(({ stationId }) => stationId === row.stationId);
    if (station === undefined) return fixedAt(toSpan(row));
    const starts = nextFreeTimes(
      {
        placeIds: station.places.map(({ id }) => id),
        changeoverMinutes: station.changeoverMinutes,
        bookings:
          wanted.stationId === station.stationId ? [...station.bookings, moved] : station.bookings,
        closures: station.closures,
        dutyWindows: station.dutyWindows,
        open: comingTimes(plan, station, step, from, until),
      },
      {
        duty: row.duty,
        minC: row.minDeciC / 10,
        maxC: row.maxDeciC / 10,
        places: row.places.length,
        minutes: (row.endsAt.getTime() - row.startsAt.getTime()) / minuteMs,
      },
      { from, until, count: mostSpans },
    );
    return { ...toSpan(row), starts };
  };
  return { warm: slot('warm'), bench: slot('bench'), cool: slot('cool') };
}

function fixedAt(span: Span): MovableSlot {
  return { ...span, starts: [{ firstStart: span.startsAt, lastStart: span.startsAt }] };
}

/** Which places the moved one gets is not asked: the rest keeps off as many as it takes. */
function placesUnknown(
  { stationId, duty, minC, maxC, places }: Wished,
  stations: readonly StationRow[],
): Omit<StationBooking, keyof Span> {
  const station = stations.find((one) => one.stationId === stationId);
  const placeIds = (station?.places ?? []).slice(0, places).map(({ id }) => id);
  return { duty, minC, maxC, placeIds };
}

/** When the room is open and the member can come; for the bench day by day: seeding and potting are done on one. */
function comingTimes(
  { request }: PlanRow,
  { room }: StationRow,
  step: Step,
  from: number,
  until: number,
): Span[] {
  const open = roomSpans(room, from, until + minuteMs);
  const comes = mergeSpans(
    memberSpans(wishOfPlan(request), room.timeZone, { from, pottedBy: from, until }),
  );
  const both = commonTimes(open, comes);
  return step === 'bench' ? commonTimes(localDays(room.timeZone, from, until), both) : both;
}

function movedRows<Row extends RunBooking>(
  rows: Rows<Row>,
  mended: ChainSpans,
  currentId: string,
): MoveOfRest<Row>[] {
  return steps.flatMap((step) => {
    const row = rows[step];
    const span = mended[step];
    if (row === null || span === null || row.id === currentId) return [];
    if (row.startsAt.getTime() === span.startsAt) return [];
    return [{ row, startsAt: new Date(span.startsAt), endsAt: new Date(span.endsAt) }];
  });
}

const linkWords: Record<BrokenLink, string> = {
  'bench-before-honey-is-cool': 'the bench would begin before the honey is cool enough for seed',
  'honey-waits-too-long': 'the honey would wait too long for the bench',
  'cool-before-potted': 'the cool room would begin before all is potted',
  'pots-wait-too-long': 'the pots would wait too long for the cool room',
};

function upset<Row extends RunBooking>(
  broken: readonly BrokenLink[],
  { chain, current, wanted }: ChainMove<Row>,
  rest: readonly MoveOfRest<Row>[] | null,
): Refusal {
  const why = broken.map((link) => linkWords[link]).join(', and ');
  const advice =
    rest === null
      ? 'The rest of the run cannot be moved to go with it: move it elsewhere, or send moveTheRest false to move it alone.'
      : 'Send moveTheRest true to move the rest as proposed, or false to move it alone.';
  const proposed =
    rest === null
      ? null
      : chain
          .map((row) => {
            const times =
              row.id === current.id ? wanted : (rest.find((one) => one.row.id === row.id) ?? row);
            return {
              bookingId: row.id,
              stationName: row.stationName,
              duty: row.duty,
              startsAt: times.startsAt.toISOString(),
              endsAt: times.endsAt.toISOString(),
            };
          })
          .sort((a, b) => (a.startsAt < b.startsAt ? -1 : 1));
  return new Refusal('plan-upset', `As it is, ${why}. ${advice}`, { offers: { chain: proposed } });
}
