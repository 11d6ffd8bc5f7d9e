import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

const axe = readFileSync(createRequire(__filename).resolve('axe-core/axe.min.js'), 'utf8');

const everyTag = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

interface Violation {
  id: string;
  nodes: { html: string }[];
}

/** What axe-core finds by the rules of WCAG 2.2 at levels A and AA, or of contrast alone, which is all that differs in the dark. */
export async function violationsOn(
  page: Page,
  what: 'all' | 'contrast' = 'all',
): Promise<string[]> {
  const runOnly = what === 'all' ? everyTag : { type: 'rule', values: ['color-contrast'] };
  // Not as a script of the page's: its policy would refuse that.
  const isThere = await page.evaluate<boolean>(`'axe' in globalThis`);
  if (!isThere) await page.evaluate(`${axe}; undefined`);
  const found = await page.evaluate<Violation[]>(
    `axe.run({ runOnly: ${JSON.stringify(runOnly)}, resultTypes: ['violations'] }).then(({ violations }) =>
      violations.map(({ id, nodes }) => ({ id, nodes: nodes.map(({ html }) => ({ html })) })))`,
  );
  return found.map(
    ({ id, nodes }) =>
      `${id}: ${nodes
        .slice(0, 3)
        .map(({ html }) => html.slice(0, 160))
        .join(' | ')}`,
  );
}

/** How far the page is wider than the window, in CSS pixels. */
export function overhangOf(page: Page): Promise<number> {
  return page.evaluate<number>('document.documentElement.scrollWidth - innerWidth');
}

// Runs in the page. A box to tick is as large as the label that ticks it, too; a link within a sentence is as high as its line.
const smallTargets = `(within) => [...document.querySelectorAll('a, button, input, select, textarea, summary, [role=button]')]
  .filter((element) => element.closest(within) !== null)
  .filter((element) => element.checkVisibility({ visibilityProperty: true }) && !element.matches(':disabled, .skip'))
  .filter((element) => !(element.matches('a') && getComputedStyle(element).display === 'inline'))
  .map((element) => {
    const boxes = [element, ...(element.matches('[type=checkbox], [type=radio]') ? element.labels : [])]
      .map((one) => one.getBoundingClientRect());
    const width = Math.max(...boxes.map((box) => box.right)) - Math.min(...boxes.map((box) => box.left));
    const height = Math.max(...boxes.map((box) => box.bottom)) - Math.min(...boxes.map((box) => box.top));
    return { width, height, words: element.outerHTML.slice(0, 200) };
  })
  .filter(({ width, height }) => width < 43.5 || height < 43.5)
  .map(({ width, height, words }) => Math.round(width) + ' × ' + Math.round(height) + ': ' + words)`;

/** The controls that a sticky finger misses, in all of the page or in what that selector finds: less than 44 CSS pixels wide or high. */
export function smallTargetsOn(page: Page, within = 'body'): Promise<string[]> {
  return page.evaluate<string[]>(`(${smallTargets})(${JSON.stringify(within)})`);
}
