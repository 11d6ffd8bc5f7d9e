import { heatDamage } from '../core/honey/keeping';
import { historyOfReadings } from '../core/honey/temperature-history';
import { Decimal, Id, Instant, OneOf, Part, Text, Whole } from '../platform/fields';
import { Each } from '../platform/list-fields';
import { HeatLoss, toHeatLoss } from './heat.responses';
import { NotKnown, knownOr, rounded } from './reckoned';
import { Assumption } from './warming.responses';
import type { LoggedRow } from './logged-rows';
import type { PlannedCourse } from './planned-course';

const temperature = { min: -60, max: 150, decimals: 2 };
const HOUR_MS = 3_600_000;

export class CoursePointResponse {
  @Instant()
  at!: string;

  @Decimal({ ...temperature, is: 'Where the pail is coldest: its core while it warms.' })
  coldestC!: number;

  @Decimal({ ...temperature, is: 'Where it is warmest: its rim while it warms.' })
  warmestC!: number;

  @Decimal({ ...temperature, is: 'Of all its honey.' })
  meanC!: number;

  @Decimal({ ...temperature, is: 'Of the air about it.' })
  airC!: number;
}

export class PlannedCourseResponse {
  @Instant({ is: 'When it was loaded, else when its warming is booked from.' })
  startsAt!: string;

  @Decimal({ ...temperature, is: 'At which the air is held.' })
  airC!: number;

  @Decimal({ ...temperature, is: 'Where it cools.' })
  roomC!: number;

  @Instant({ nullable: true, is: 'When its coldest point has passed clearC; null: not in time.' })
  clearAt!: string | null;

  @Instant({ nullable: true, is: 'The end of its booking, else when it is clear.' })
  takenOutAt!: string | null;

  @Instant({ nullable: true, is: 'When its warmest point is down to seedC.' })
  coolEnoughAt!: string | null;

  @Each(() => CoursePointResponse, { max: 200 })
  points!: CoursePointResponse[];

  @Part(() => HeatLoss, { is: 'Of warming and cooling, of the pail stirred together.' })
  cost!: HeatLoss;

  @Part(() => HeatLoss, { is: 'The same where the pail is always warmest. Never understated.' })
  costAtTheRim!: HeatLoss;

  @Each(() => Assumption, { max: 20 })
  assumptions!: Assumption[];
}

export class LoggedPoint {
  @Instant()
  at!: string;

  @Decimal({ ...temperature, is: 'The mean of the readings gathered in the point.' })
  temperatureC!: number;

  @Decimal(temperature)
  minC!: number;

  @Decimal(temperature)
  maxC!: number;
}

export class LoggedCourseResponse {
  @Id()
  probeId!: string;

  @Text({ max: 80 })
  probeName!: string;

  @OneOf(['honey', 'air'], { is: 'air: in the station that is booked to warm the batch.' })
  place!: 'honey' | 'air';

  @Whole({ min: 1, max: 2_147_483_647, is: 'All its readings of that time.' })
  readings!: number;

  @Instant({ nullable: true, is: 'The first of them that was at clearC or warmer.' })
  clearAt!: string | null;

  @Instant({ nullable: true, is: 'The first after that which was at seedC or cooler.' })
  coolEnoughAt!: string | null;

  @Decimal(temperature)
  warmestC!: number;

  @Instant({ is: 'The first of the warmest.' })
  warmestAt!: string;

  @Each(() => LoggedPoint, { max: 500, is: 'Thinned for a drawing.' })
  points!: LoggedPoint[];

  @Part(() => HeatLoss, {
    nullable: true,
    is: 'Of honey that was as warm as the probe says, so far; null: in air, of one reading, or outside what the sources cover.',
  })
  cost!: HeatLoss | null;
}

export class TemperatureLimits {
  @Decimal({ ...temperature, is: 'Its coldest point passes it: the pail counts as clear.' })
  clearC!: number;

  @Decimal({ ...temperature, is: 'Seed goes in no warmer.' })
  seedC!: number;

  @Decimal({ ...temperature, is: 'No plan of the club is hotter unless somebody asks for it.' })
  hottestC!: number;

  @Decimal({ min: 0, max: 1000, decimals: 1, is: 'The most HMF, mg/kg, that the law allows.' })
  mostHmfMgPerKg!: number;

  @Decimal({ min: 0, max: 1000, decimals: 1, is: 'The least diastase number that the law allows.' })
  leastDiastaseNumber!: number;

  @Text({ max: 500 })
  source!: string;
}

export class TemperaturesResponse {
  @Id()
  batchId!: string;

  @Part(() => TemperatureLimits)
  limits!: TemperatureLimits;

  @Part(() => PlannedCourseResponse, { nullable: true })
  planned!: PlannedCourseResponse | null;

  @Text({ max: 500, nullable: true, is: 'Why nothing planned is told.' })
  whyNotPlanned!: string | null;

  @Each(() => LoggedCourseResponse, { max: 20, is: 'By probe, those in the honey first.' })
  logged!: LoggedCourseResponse[];
}

export function toPlannedCourse(course: PlannedCourse): PlannedCourseResponse {
  return {
    startsAt: iso(course.startsAtMs),
    airC: rounded(course.airC, 2),
    roomC: rounded(course.roomC, 2),
    clearAt: isoOrNull(course.clearAtMs),
    takenOutAt: isoOrNull(course.takenOutAtMs),
    coolEnoughAt: isoOrNull(course.coolEnoughAtMs),
    points: course.points.map(({ atMs, coldestC, warmestC, meanC, airC }) => ({
      at: iso(atMs),
      coldestC: rounded(coldestC, 2),
      warmestC: rounded(warmestC, 2),
      meanC: rounded(meanC, 2),
      airC: rounded(airC, 2),
    })),
    cost: toHeatLoss(course.damage.mean),
    costAtTheRim: toHeatLoss(course.damage.worst),
    assumptions: course.assumptions,
  };
}

export function toLoggedCourse(row: LoggedRow): LoggedCourseResponse {
  const points = row.points.map(({ at, meanDeciC, minDeciC, maxDeciC }) => ({
    at: new Date(at).toISOString(),
    temperatureC: rounded(meanDeciC / 10, 2),
    minC: minDeciC / 10,
    maxC: maxDeciC / 10,
  }));
  return {
    probeId: row.probeId,
    probeName: row.probeName,
    place: row.place,
    readings: row.readings,
    clearAt: row.clearAt?.toISOString() ?? null,
    coolEnoughAt: row.coolEnoughAt?.toISOString() ?? null,
    warmestC: row.warmestDeciC / 10,
    warmestAt: row.warmestAt.toISOString(),
    points,
    cost: row.place === 'air' || points.length < 2 ? null : costOf(points),
  };
}

function costOf(points: readonly LoggedPoint[]): HeatLoss | null {
  const startMs = Date.parse(points[0]?.at ?? '');
  const cost = knownOr(() => {
    const history = points.map(({ at, temperatureC }) => ({
      atHours: (Date.parse(at) - startMs) / HOUR_MS,
      temperatureC,
    }));
    return toHeatLoss(heatDamage(historyOfReadings(history, LONGEST_GAP_HOURS)));
  });
  return cost instanceof NotKnown ? null : cost;
}

/** Over a wider gap the warmer of its ends is counted. */
const LONGEST_GAP_HOURS = 6;

function iso(ms: number): string {
  return new Date(ms).toISOString();
}

function isoOrNull(ms: number | null): string | null {
  return ms === null ? null : iso(ms);
}
