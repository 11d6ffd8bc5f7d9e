import fc from 'fast-check';
import type { Room, RoomStation, Run, WarmingOption } from '../../../../src/core/planning/runs/run';
import type { Duty, Span } from '../../../../src/core/planning/station-times';
import { at } from '../small-stations';
import { fits } from './chain-oracle';
import { held } from './small-rooms';

/** Days of a small club have so many steps. */
const DAY = 24;
const DAYS = 4;

/** A random club on a grid of so many minutes a step, and a wish for a run through its room. */
export const smallClub = (stepMinutes: number): fc.Arbitrary<{ room: Room; run: Run }> => {
  const instant = (step: number) => at(0) + step * stepMinutes * 60_000;
  const span = (start: number, length: number): Span => ({
    startsAt: instant(start),
    endsAt: instant(start + length),
  });
  const spans = (most: number, longest: number) =>
    fc.array(
      fc
        .tuple(fc.integer({ min: -4, max: DAY * DAYS }), fc.integer({ min: 1, max: longest }))
        .map(([start, length]) => span(start, length)),
      { maxLength: most },
    );
  const hours = fc.oneof(
    fc.constant([span(-10, 400)]),
    fc
      .tuple(fc.integer({ min: 0, max: 8 }), fc.integer({ min: 10, max: 16 }))
      .map(([opens, length]) =>
        Array.from({ length: DAYS + 3 }, (_, day) => span(day * DAY + opens, length)),
      ),
    fc
      .array(fc.tuple(fc.integer({ min: 0, max: 5 }), fc.integer({ min: 4, max: 30 })), {
        minLength: 3,
        maxLength: 8,
      })
      .map((parts) => {
        let from = 0;
        return parts.map(([gap, length]) => {
          const one = span(from + gap, length);
          from += gap + length;
          return one;
        });
      }),
  );
  const band = fc.integer({ min: 36, max: 42 }).map((minC) => ({ minC, maxC: minC + 4 }));
  const wished = fc.tuple(
    fc.integer({ min: -4, max: DAY * DAYS }),
    fc.integer({ min: 1, max: 14 }),
    fc.nat(2),
    fc.nat(1),
    band,
  );
  const stationWith = (stationId: string, duties: Duty[], mostPlaces: number) =>
    fc
      .record({
        places: fc.integer({ min: 1, max: mostPlaces }),
        changeover: fc.nat(3),
        closures: spans(2, 8),
        windows: fc.array(
          fc.tuple(fc.nat(1), fc.nat(DAY * DAYS), fc.integer({ min: 2, max: 24 })),
          {
            maxLength: duties.length - 1,
          },
        ),
        wished: fc.array(wished, { maxLength: 8 }),
      })
      .map((drawn): RoomStation => {
        let station: RoomStation = {
          stationId,
          duties,
          placeIds: Array.from({ length: drawn.places }, (_, index) => `${stationId}-${index + 1}`),
          changeoverMinutes: drawn.changeover * stepMinutes,
          bookings: [],
          closures: drawn.closures,
          open: null,
          dutyWindows: drawn.windows.map(([duty, start, length]) => ({
            duty: duties[duty] ?? 'warm',
            ...span(start, length),
          })),
        };
        for (const [start, length, place, dutyIndex, temperature] of drawn.wished) {
          const duty = duties[dutyIndex % duties.length] ?? 'warm';
          const placeIds = station.placeIds.slice(place, place + 2);
          const use = { duty, ...temperature, ...span(start, length), places: placeIds.length };
          const own = { ...station, placeIds };
          if (placeIds.length === 0 || !fits(own, use)) continue;
          const booking = { ...held(0, 1, placeIds, duty, temperature), ...span(start, length) };
          station = { ...station, bookings: [...station.bookings, booking] };
        }
        return station;
      });
  const option: fc.Arbitrary<WarmingOption> = fc
    .tuple(band, fc.integer({ min: 1, max: 10 }), fc.nat(2), fc.nat(3), fc.nat(3))
    .map(([temperature, alone, more, cooling, heat]) => ({
      setpointC: temperature.minC + 2,
      ...temperature,
      minutes: (others) => (alone + others * more) * stepMinutes,
      coolingMinutes: cooling * stepMinutes,
      energyKWh: 1,
      diastaseLeftPercent: 90 + heat,
      hmfGainedMgPerKg: heat,
    }));

  return fc
    .record({
      cabinet: stationWith('cabinet', ['warm', 'cool'], 3),
      second: fc.option(stationWith('second', ['warm'], 2)),
      bench: fc.oneof(
        stationWith('bench', ['bench'], 1),
        stationWith('bench', ['bench', 'cool'], 2),
        stationWith('bench', ['bench', 'warm'], 2),
      ),
      cellar: fc.option(stationWith('cellar', ['cool'], 3)),
      openSpans: hours,
      memberSpans: hours,
      options: fc.array(option, { minLength: 1, maxLength: 2 }),
      earliest: fc.nat(20),
      latest: fc.integer({ min: 25, max: DAY * DAYS }),
      pails: fc.integer({ min: 1, max: 2 }),
      inPlace: fc.boolean(),
      stand: fc.nat(6),
      benchMinutes: fc.integer({ min: 1, max: 5 }),
      shelve: fc.nat(3),
      crates: fc.integer({ min: 1, max: 2 }),
      hold: fc.integer({ min: 2, max: 30 }),
    })
    .map((drawn) => {
      const stations = [drawn.cabinet, drawn.second, drawn.bench, drawn.cellar].filter(
        (one) => one !== null,
      );
      return {
        room: {
          stations,
          openSpans: drawn.openSpans,
          days: Array.from({ length: DAYS + 4 }, (_, day) => span((day - 1) * DAY, DAY)),
        },
        run: {
          preference: 'soonest',
          earliestStart: instant(drawn.earliest),
          latestPotAt: instant(drawn.latest),
          memberSpans: drawn.memberSpans,
          pails: drawn.pails,
          warming: new Map(stations.map(({ stationId }) => [stationId, drawn.options])),
          coolsInPlace: drawn.inPlace ? { minC: 37, maxC: 41 } : null,
          maxStandMinutes: drawn.stand * stepMinutes,
          bench: { minC: 36, maxC: 46, places: 1, minutes: drawn.benchMinutes * stepMinutes },
          maxShelveMinutes: drawn.shelve * stepMinutes,
          cool: { minC: 38, maxC: 41, crates: drawn.crates, minutes: drawn.hold * stepMinutes },
        },
      };
    });
};
