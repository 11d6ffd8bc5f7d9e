import fc from 'fast-check';
import {
  brokenLinks,
  mendChain,
  type ChainSpans,
  type MovableSlot,
} from '../../../src/core/planning/chain-move';

const hour = 3_600_000;
const rules = { coolingMinutes: 24 * 60, maxStandMinutes: 12 * 60, maxShelveMinutes: 2 * 60 };

const at = (from: number, until: number) => ({ startsAt: from * hour, endsAt: until * hour });
const run: ChainSpans = { warm: at(0, 48), bench: at(72, 74), cool: at(74, 200) };

const movable = (
  span: { startsAt: number; endsAt: number },
  ...starts: [number, number][]
): MovableSlot => ({
  ...span,
  starts: starts.map(([first, last]) => ({ firstStart: first * hour, lastStart: last * hour })),
});
const anywhere: [number, number] = [-1000, 1000];
const fixed = (from: number, until: number) => movable(at(from, until), [from, from]);

describe('ties', () => {
  test.each<[string, Partial<ChainSpans>, string[]]>([
    ['all hold', {}, []],
    [
      'warming ends a minute late',
      { warm: { startsAt: 0, endsAt: 48 * hour + 60_000 } },
      ['bench-before-honey-is-cool'],
    ],
    ['the honey stands twelve hours', { warm: at(0, 36) }, []],
    ['the honey stands longer', { warm: at(0, 35.9) }, ['honey-waits-too-long']],
    ['the cool room begins early', { cool: at(73.9, 200) }, ['cool-before-potted']],
    ['the pots wait two hours', { cool: at(76, 200) }, []],
    ['the pots wait longer', { cool: at(76.1, 200) }, ['pots-wait-too-long']],
    ['the bench is given up', { bench: null, cool: at(0, 9) }, []],
    ['the cabinet is given up', { warm: null }, []],
  ])('%s', (_, different, broken) => {
    expect(brokenLinks({ ...run, ...different }, rules)).toEqual(broken);
  });
});

test('bench and cool room follow a warming that is moved, by no more than they must', () => {
  const mended = mendChain(
    {
      warm: fixed(5, 53),
      bench: movable(at(72, 74), anywhere),
      cool: movable(at(74, 200), anywhere),
    },
    rules,
  );
  expect(mended).toEqual({ warm: at(5, 53), bench: at(77, 79), cool: at(79, 205) });
});

test('where the bench is taken, the next time that goes with a free cool room is found', () => {
  const mended = mendChain(
    {
      warm: fixed(5, 53),
      bench: movable(at(72, 74), [70, 72], [80, 81], [84, 85]),
      cool: movable(at(74, 200), [74, 75], [87, 90]),
    },
    rules,
  );
  expect(mended).toEqual({ warm: at(5, 53), bench: at(84, 86), cool: at(87, 213) });
});

test('warming comes forward where the bench does', () => {
  const mended = mendChain(
    {
      warm: movable(at(0, 48), anywhere),
      bench: fixed(60, 62),
      cool: movable(at(74, 200), anywhere),
    },
    rules,
  );
  expect(mended).toEqual({ warm: at(-12, 36), bench: at(60, 62), cool: at(64, 190) });
});

test('no way is no way', () => {
  expect(
    mendChain({ warm: fixed(5, 53), bench: fixed(72, 74), cool: fixed(74, 200) }, rules),
  ).toBeNull();
});

test('what is mended holds, keeps its lengths and stays among the possible starts', () => {
  const starts = fc.array(fc.tuple(fc.integer({ min: -60, max: 160 }), fc.nat(20)), {
    minLength: 1,
    maxLength: 4,
  });
  fc.assert(
    fc.property(starts, starts, starts, (warm, bench, cool) => {
      const slotOf = (span: { startsAt: number; endsAt: number }, some: [number, number][]) =>
        movable(span, ...some.map(([first, length]): [number, number] => [first, first + length]));
      const chain = {
        warm: slotOf(at(0, 48), warm),
        bench: slotOf(at(72, 74), bench),
        cool: slotOf(at(74, 200), cool),
      };
      const mended = mendChain(chain, rules);
      if (mended === null) return;
      expect(brokenLinks(mended, rules)).toEqual([]);
      for (const name of ['warm', 'bench', 'cool'] as const) {
        const span = mended[name]!;
        expect(span.endsAt - span.startsAt).toBe(chain[name].endsAt - chain[name].startsAt);
        expect(
          chain[name].starts.some(
            ({ firstStart, lastStart }) =>
              span.startsAt >= firstStart && span.startsAt <= lastStart,
          ),
        ).toBe(true);
      }
    }),
  );
});
