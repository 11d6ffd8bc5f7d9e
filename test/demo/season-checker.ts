import { stations } from '../../demo/club';
import type { BatchRecord, BookingRecord, ClosureRecord, Season } from '../../demo/records';

// Reads the plain records again from the beginning, and shares no arithmetic with what made them.

const minuteMs = 60_000;

/** Everything that could not have happened in one room with one mixer, in words; none: all is well. */
export function impossibleBookings(season: Season): string[] {
  const bookings = season.batches.flatMap((batch) => batch.bookings);
  return [
    ...bookings.flatMap((booking) => faultsOf(booking, season.closures)),
    ...bookings.flatMap((one, index) =>
      bookings.slice(index + 1).flatMap((other) => faultsBetween(one, other)),
    ),
    ...Object.keys(stations).flatMap((station) =>
      tooFullTimes(bookings.filter((one) => one.station === station)),
    ),
  ];
}

function faultsOf(booking: BookingRecord, closures: readonly ClosureRecord[]): string[] {
  const { ref, station, duty, minC, maxC, startsAt, endsAt, places, loadG } = booking;
  const faults: string[] = [];
  const offered = stations[station].duties.find((one) => one.duty === duty);
  if (offered === undefined || minC < offered.minC || maxC > offered.maxC || minC > maxC) {
    faults.push(`${ref}: ${station} cannot hold ${minC} to ${maxC} °C as ${duty}`);
  }
  if (!(startsAt < endsAt)) faults.push(`${ref}: ends before it starts`);
  if (startsAt.getTime() % minuteMs !== 0 || endsAt.getTime() % minuteMs !== 0) {
    faults.push(`${ref}: not on whole minutes`);
  }
  if (endsAt.getTime() - startsAt.getTime() > 120 * 1440 * minuteMs) {
    faults.push(`${ref}: longer than 120 days`);
  }
  if (loadG > places * stations[station].placeLoadKg * 1000) faults.push(`${ref}: overloaded`);
  for (const closure of closures) {
    if (closure.station === station && closure.startsAt < endsAt && startsAt < closure.endsAt) {
      faults.push(`${ref}: runs into closure ${closure.ref}`);
    }
  }
  return faults;
}

function faultsBetween(one: BookingRecord, other: BookingRecord): string[] {
  if (one.station !== other.station) return [];
  const pair = `${one.ref} and ${other.ref}`;
  const gapMs = Math.max(
    other.startsAt.getTime() - one.endsAt.getTime(),
    one.startsAt.getTime() - other.endsAt.getTime(),
  );
  if (one.duty !== other.duty) {
    const needed = stations[one.station].changeoverMinutes * minuteMs;
    return gapMs < needed ? [`${pair}: no time to change over`] : [];
  }
  if (gapMs >= 0) return [];
  const share = Math.max(one.minC, other.minC) <= Math.min(one.maxC, other.maxC);
  return share ? [] : [`${pair}: no temperature in common`];
}

/** Gives each booking places in the order of their starts, as somebody would who writes them into a diary. */
function tooFullTimes(bookings: readonly BookingRecord[]): string[] {
  const freeFrom = new Map<number, number>();
  const inOrder = [...bookings].sort((a, b) => a.startsAt.getTime() - b.startsAt.getTime());
  return inOrder.flatMap((booking) => {
    const all = Array.from({ length: stations[booking.station].places }, (_, place) => place);
    const free = all.filter((place) => (freeFrom.get(place) ?? 0) <= booking.startsAt.getTime());
    for (const place of free.slice(0, booking.places)) {
      freeFrom.set(place, booking.endsAt.getTime());
    }
    return free.length < booking.places ? [`${booking.ref}: no place left`] : [];
  });
}

interface Balance {
  holder: string;
  initialG: number;
  drawnG: number;
  goodFrom: number;
}

/** Everything in the masses that cannot be, in words: lots overdrawn, used before they were, or used by who does not hold them. */
export function impossibleMasses(season: Season): string[] {
  const faults: string[] = [];
  const lots = new Map<string, Balance>();
  for (const { ref, member, massG, extractedOn } of season.honeyLots) {
    add(ref, member, massG, Date.parse(extractedOn));
  }
  for (const { ref, member, massG } of season.boughtSeed) add(ref, member, massG, -Infinity);
  for (const batch of season.batches.filter(({ seededAt }) => seededAt !== null)) {
    const inputG = total(batch.honey) + total(batch.seed);
    add(
      `${batch.ref}-creamed`,
      batch.member,
      inputG - batch.lossAtSeedingG,
      Date.parse(String(batch.seededAt)),
    );
    const putByG = batch.potting?.seedPutByG ?? 0;
    const seenSet = batch.looks.find(({ state }) => state === 'set');
    if (putByG > 0)
      add(`${batch.ref}-seed`, batch.member, putByG, seenSet?.at.getTime() ?? Infinity);
  }
  for (const { ref, borrower, massG, at } of season.loans) add(ref, borrower, massG, at.getTime());
  for (const { ref, loan, fromLot, borrower, massG, at } of season.returns) {
    const { lender, at: lentAt } = season.loans.find((one) => one.ref === loan)!;
    add(ref, lender, massG, at.getTime());
    if (at < lentAt) faults.push(`${ref}: before it was lent`);
    draw(ref, fromLot, borrower, massG, at);
  }
  for (const { ref, massG } of season.loans) {
    if (total(season.returns.filter(({ loan }) => loan === ref)) > massG) {
      faults.push(`${ref}: more given back than was lent`);
    }
  }

  for (const { ref, fromLot, lender, massG, at } of season.loans)
    draw(ref, fromLot, lender, massG, at);
  for (const batch of season.batches) drawFor(batch);
  for (const { ref, lot, member, massG, at } of season.withdrawals)
    draw(ref, lot, member, massG, at);
  for (const [ref, { initialG, drawnG }] of lots) {
    if (drawnG > initialG) faults.push(`${ref}: ${drawnG} g drawn of ${initialG} g`);
  }
  return faults;

  function add(ref: string, holder: string, initialG: number, goodFrom: number): void {
    if (lots.has(ref)) faults.push(`${ref}: twice`);
    if (!Number.isInteger(initialG) || initialG <= 0) faults.push(`${ref}: ${initialG} g`);
    lots.set(ref, { holder, initialG, drawnG: 0, goodFrom });
  }

  function draw(by: string, ref: string, holder: string, massG: number, at: Date): void {
    const lot = lots.get(ref);
    if (lot?.holder !== holder) faults.push(`${by}: ${ref} is not ${holder}'s`);
    if (lot === undefined) return;
    if (!Number.isInteger(massG) || massG <= 0) faults.push(`${by}: ${massG} g of ${ref}`);
    if (lot.goodFrom > at.getTime()) faults.push(`${by}: ${ref} is not good yet`);
    lot.drawnG += massG;
  }

  function drawFor({ ref, member, honey, seed, seededAt, potting, bookings }: BatchRecord): void {
    const begun = seededAt ?? bookings[0]?.startsAt ?? new Date(0);
    for (const { lot, massG } of honey) draw(ref, lot, member, massG, begun);
    if (seededAt === null) return;
    for (const { lot, massG } of seed) draw(ref, lot, member, massG, seededAt);
    if (potting === null) return void faults.push(`${ref}: seeded, and never potted`);
    for (const { netMassG, count } of potting.pots) {
      draw(ref, `${ref}-creamed`, member, netMassG * count, seededAt);
    }
    draw(ref, `${ref}-creamed`, member, potting.lossG, seededAt);
    if (potting.seedPutByG > 0) draw(ref, `${ref}-creamed`, member, potting.seedPutByG, seededAt);
  }
}

function total(parts: readonly { massG: number }[]): number {
  return parts.reduce((sum, { massG }) => sum + massG, 0);
}

/** How many batches in a row the seed of each batch has come through, itself counted; 0 for one without seed. */
export function generations({ batches, loans }: Season): Map<string, number> {
  const known = new Map<string, number>();
  const ofBatch = (ref: string): number => {
    const before = known.get(ref);
    if (before !== undefined) return before;
    const seed = batches.find((batch) => batch.ref === ref)?.seed ?? [];
    const generation = seed.length === 0 ? 0 : 1 + Math.max(...seed.map(({ lot }) => ofLot(lot)));
    known.set(ref, generation);
    return generation;
  };
  const ofLot = (ref: string): number => {
    const loan = loans.find((one) => one.ref === ref);
    if (loan !== undefined) return ofLot(loan.fromLot);
    return ref.endsWith('-seed') ? ofBatch(ref.replace('-seed', '')) : 0;
  };
  for (const { ref } of batches) ofBatch(ref);
  return known;
}
