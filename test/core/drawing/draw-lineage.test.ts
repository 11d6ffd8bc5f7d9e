import fc from 'fast-check';
import { MOST_LOTS_DRAWN } from '../../../src/core/drawing/choose-lots';
import { drawLineage } from '../../../src/core/drawing/draw-lineage';
import { ASKED_EDGE, LINE, LOT_LOOKS, PLATE } from '../../../src/core/drawing/palette';
import { escapeXml, percentInWords, shortened } from '../../../src/core/drawing/svg-text';
import { drawnFrom, randomLineage } from './some-lineages';

const addressOf = ({ id }: { id: string }) => `/lots/${id}`;

function textsOf(svg: string): string[] {
  return [...svg.matchAll(/<text[^>]*>([^<]*)<\/text>/g)].map(([, text]) => text!);
}

/** Tags that are opened and not closed, or closed and not opened. */
function unbalanced(svg: string): string[] {
  const open: string[] = [];
  for (const [, closing, name, self] of svg.matchAll(/<(\/?)([a-z]+)[^<>]*?(\/?)>/g)) {
    if (self === '/') continue;
    if (closing === '') open.push(name!);
    else if (open.pop() !== name) return [`</${name!}>`];
  }
  return open;
}

describe('a small lineage', () => {
  const { lots, edges } = drawnFrom({
    asked: 'creamed',
    kinds: { lime: 'honey', rape: 'honey', seed: 'seed', creamed: 'creamed', next: 'seed' },
    edges: [
      ['lime', 'creamed', 15_000],
      ['rape', 'creamed', 3_000],
      ['seed', 'creamed', 2_000],
      ['creamed', 'next', 3_000],
    ],
  });
  const svg = drawLineage(lots, edges, addressOf);

  test('says in text what it shows, lot by lot, with shares', () => {
    expect(svg).toMatch(/<title id="lineage-title">Lineage of [\w-]+, Lot creamed<\/title>/);
    expect(svg).toMatch(
      /<desc id="lineage-desc">3 lots are in it; it is in 1 other\. From left to right/,
    );
    expect(textsOf(svg)).toEqual(
      expect.arrayContaining(['Lot lime', '75 % of the lot', '15 %', 'the lot asked about']),
    );
    expect(textsOf(svg)).toContain('100 % is the lot');
  });

  test('leads from every lot to its address', () => {
    for (const { id } of lots) expect(svg).toContain(`<a href="/lots/${id}"`);
  });

  test('draws what went in left of what came out, and the greater part wider', () => {
    const x = (name: string) =>
      Number(
        new RegExp(`href="/lots/${name}"[^>]*><g transform="translate\\(([\\d.]+)`).exec(svg)![1],
      );
    expect(x('lime')).toBeLessThan(x('creamed'));
    expect(x('creamed')).toBeLessThan(x('next'));
    const widths = [...svg.matchAll(/<path d="[^"]*" fill="none"[^>]*stroke-width="([\d.]+)"/g)];
    // By hand: from 1.2 for nothing to 11 for the whole.
    expect(widths.map(([, width]) => Number(width))).toEqual([8.6, 2.7, 2.2, 11]);
  });

  test('needs neither scripts nor style sheets, and does not rely on colour', () => {
    expect(svg).not.toMatch(/<script|<style|style=|class=|\son\w+=|<image|<foreignObject|url\(/i);
    expect(unbalanced(svg)).toEqual([]);
  });
});

test('names are only ever text, whatever they hold', () => {
  const attack = `</text><script>alert(1)</script><a href="javascript:x" onload='y'>&"`;
  fc.assert(
    fc.property(fc.oneof(fc.string({ unit: 'binary' }), fc.constant(attack)), (name) => {
      const { lots, edges } = drawnFrom({
        asked: 'a',
        kinds: { a: 'creamed', b: 'honey' },
        edges: [['b', 'a', 10]],
        name: () => name,
      });
      const svg = drawLineage(lots, edges, () => `/lots/"><script>`);
      const plain = drawLineage(
        lots.map((lot) => ({ ...lot, name: 'x', holderName: 'x' })),
        edges,
        () => '/lots/x',
      );
      expect(svg.match(/<[a-z/]+/g)).toEqual(plain.match(/<[a-z/]+/g));
      expect(svg).not.toMatch(/[\u0000-\u0008\u000B\u000C\u000E-\u001F\uFFFE\uFFFF]/);
      expect(svg.isWellFormed()).toBe(true);
    }),
    { numRuns: 60 },
  );
});

test.each([
  ['a bush', randomLineage(5, 140)],
  ['a long line of seed', randomLineage(1, 220)],
])('%s: lots never lie over each other, and all are on the sheet', (_, lineage) => {
  const { lots, edges } = drawnFrom(lineage);
  const svg = drawLineage(lots, edges, addressOf);
  const [, width, height] = /width="(\d+)" height="(\d+)"/.exec(svg)!.map(Number);
  const [, left, top] = [
    ...svg.matchAll(/<g transform="translate\((\d+) (\d+)\)">\n<path/g),
  ][0]!.map(Number);
  const boxes = [
    ...svg.matchAll(
      /<a href[^>]*><g transform="translate\((-?\d+) (-?\d+)\)"><title>[^<]*<\/title><rect width="(\d+)" height="(\d+)"/g,
    ),
  ].map(([, x, y, w, h]) => ({ x: Number(x), y: Number(y), w: Number(w), h: Number(h) }));

  expect(boxes).toHaveLength(Math.min(lots.length, MOST_LOTS_DRAWN));
  for (const [index, a] of boxes.entries()) {
    expect(a.x).toBeGreaterThanOrEqual(0);
    expect(a.y).toBeGreaterThanOrEqual(0);
    expect(left! + a.x + a.w).toBeLessThanOrEqual(width!);
    expect(top! + a.y + a.h).toBeLessThanOrEqual(height!);
    const over = boxes
      .slice(index + 1)
      .filter((b) => a.x + a.w > b.x && b.x + b.w > a.x && a.y + a.h > b.y && b.y + b.h > a.y);
    expect(over).toEqual([]);
  }
  expect(width).toBeLessThan(1900);
  expect(unbalanced(svg)).toEqual([]);
  expect(drawLineage(lots, edges, addressOf)).toBe(svg);
});

test('of more than 300 lots the farthest are left out, and it says so', () => {
  const { lots, edges } = drawnFrom(randomLineage(1, 420));
  const svg = drawLineage(lots, edges, addressOf);
  const links = svg.match(/<a href/g) ?? [];
  expect(links).toHaveLength(300);
  expect(svg).toContain(`The ${lots.length - 300} farthest are not drawn; the table`);
});

test('a lot alone is drawn, too', () => {
  const { lots, edges } = drawnFrom({ asked: 'a', kinds: { a: 'honey' }, edges: [] });
  const svg = drawLineage(lots, edges, addressOf);
  expect(svg).toContain('It was brought in: no other lot is in it; it is in no other lot.');
});

// WCAG 2.2: 1.4.3 (text: 4.5), 1.4.11 (what is needed to understand a drawing: 3), contrast ratio and relative luminance by its definitions.
describe('the colours', () => {
  test('of words stand out from the ground they are on', () => {
    for (const { ground, words, edge } of [...Object.values(LOT_LOOKS), PLATE]) {
      expect(contrast(words, ground)).toBeGreaterThanOrEqual(7);
      if (edge !== PLATE.edge) expect(contrast(edge, ground)).toBeGreaterThanOrEqual(4.5);
    }
  });

  test('of lines and frames stand out on white paper and on a dark screen', () => {
    for (const page of ['#ffffff', '#121212']) {
      expect(contrast(LINE, page)).toBeGreaterThanOrEqual(3);
    }
    for (const { ground } of Object.values(LOT_LOOKS)) {
      expect(contrast(ASKED_EDGE, ground)).toBeGreaterThanOrEqual(4.5);
    }
  });
});

function contrast(one: string, other: string): number {
  const [light, dark] = [luminance(one), luminance(other)].sort((a, b) => b - a);
  return (light! + 0.05) / (dark! + 0.05);
}

function luminance(colour: string): number {
  const [r, g, b] = [1, 3, 5].map((at) => {
    const part = parseInt(colour.slice(at, at + 2), 16) / 255;
    return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
}

test.each([
  [1, '100 %'],
  [0.9996, '99.9 %'],
  [0.75, '75 %'],
  [1 / 11, '9.09 %'],
  [0.000001234, '0.000123 %'],
  [1e-9, '< 0.0001 %'],
  [0, '0 %'],
])('a share of %d is told as %s', (share, words) => {
  expect(percentInWords(share)).toBe(words);
});

test('long names are cut, and letters of the far East count twice', () => {
  expect(shortened('Lime, July', 10)).toBe('Lime, July');
  expect(shortened('Lime, July, pails', 10)).toBe('Lime, Jul…');
  expect(shortened('蜂蜜の樽', 8)).toBe('蜂蜜の樽');
  expect(shortened('蜂蜜の樽', 7)).toBe('蜂蜜の…');
  expect(escapeXml(`<&>"'\u0000\ud800`)).toBe('&lt;&amp;&gt;&quot;&#39;\ufffd\ufffd');
});
