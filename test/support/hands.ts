import type { Locator, Page } from 'playwright-core';
import type { Visitor } from './page';

/** How somebody works a page: with a pointer, or with the keyboard alone. */
export interface Hands {
  page: Page;
  press(name: string | RegExp): Promise<void>;
  follow(name: string | RegExp): Promise<void>;
  /** Opens what is folded away under these words. */
  unfold(words: string): Promise<void>;
  /** Fills fields, each found by words of its label, in the part of the screen with that heading. */
  fill(fields: Record<string, string>, part?: string): Promise<void>;
  choose(label: string, option: string): Promise<void>;
  tick(label: string): Promise<void>;
}

const button = (page: Page, name: string | RegExp) =>
  page.getByRole('button', { name, exact: true }).first();
const link = (page: Page, name: string | RegExp) =>
  page.getByRole('link', { name, exact: true }).first();
const folded = (page: Page, words: string) =>
  page.locator('summary').filter({ hasText: words }).first();
const box = (page: Page, label: string) => page.getByRole('checkbox', { name: label }).first();
const partOf = (page: Page, part: string) =>
  page.locator('section', { has: page.getByRole('heading', { name: part, exact: true }) });
const field = (page: Page, label: string, part?: string) =>
  (part === undefined ? page : partOf(page, part)).getByLabel(label, { exact: false }).first();

export function aPointer({ page }: Visitor): Hands {
  return {
    page,
    press: (name) => button(page, name).click(),
    follow: (name) => link(page, name).click(),
    unfold: (words) => folded(page, words).click(),
    fill: async (fields, part) => {
      for (const [label, value] of Object.entries(fields)) {
        await field(page, label, part).fill(value);
      }
    },
    choose: async (label, option) => {
      await field(page, label).selectOption({ label: option });
    },
    tick: (label) => box(page, label).check(),
  };
}

export async function aKeyboard({ page }: Visitor): Promise<Hands> {
  await page.addInitScript(
    `addEventListener('focusin', () => (globalThis.hadFocus = true)); globalThis.lookAtFocus = ${lookAtFocus}`,
  );
  const use = async (control: Locator, key: string) => {
    await tabTo(page, control);
    await page.keyboard.press(key);
  };
  return {
    page,
    press: (name) => use(button(page, name), 'Enter'),
    follow: (name) => use(link(page, name), 'Enter'),
    unfold: (words) => use(folded(page, words), 'Enter'),
    fill: async (fields, part) => {
      for (const [label, value] of Object.entries(fields)) {
        await use(field(page, label, part), 'Control+A');
        await page.keyboard.type(value);
      }
    },
    choose: async (label, option) => {
      await tabTo(page, field(page, label));
      await page.keyboard.type(option);
    },
    tick: (label) => use(box(page, label), 'Space'),
  };
}

/** More presses of Tab than anybody would bear; a field for a date and a time takes six of them. */
const mostTabs = 60;

interface Focus {
  isThere: boolean;
  /** Something had it, and nothing has it now. */
  isLost: boolean;
  isBefore: boolean;
  /** What is wrong with how the focus is shown; empty: nothing. */
  fault: string;
}

// Runs in the page.
const lookAtFocus = `(target) => {
  const active = document.activeElement;
  const isNowhere = active === document.body;
  const isOutlined = (element) => {
    const { outlineStyle, outlineWidth } = getComputedStyle(element);
    return outlineStyle !== 'none' && parseFloat(outlineWidth) >= 2;
  };
  // A choice of one hides its dots: what is seen is the word beside each.
  const shown = active.matches('input[type=radio]') ? active.nextElementSibling : active;
  const around = [shown, shown.parentElement, ...shown.children];
  const { top, bottom } = shown.getBoundingClientRect();
  const places = document.querySelector('.frame-places');
  const covers = places !== null && !places.contains(active) && getComputedStyle(places).position === 'fixed';
  const end = covers ? places.getBoundingClientRect().top : innerHeight;
  const fault = isNowhere ? '' : !around.some(isOutlined) ? 'shows no focus' : bottom <= 0 || top >= end ? 'is out of sight' : '';
  return {
    isThere: active === target,
    isLost: isNowhere && globalThis.hadFocus === true,
    isBefore: (active.compareDocumentPosition(target) & Node.DOCUMENT_POSITION_PRECEDING) !== 0 && !isNowhere,
    fault: fault && fault + ': ' + active.outerHTML.slice(0, 200),
  };
}`;

/** Tabs until that control has the focus. Fails when it is not reached, when the focus is lost, or is not seen on the way. */
export async function tabTo(page: Page, control: Locator): Promise<void> {
  await control.waitFor();
  let focus = await lookAt(control);
  const end = Date.now() + 5000;
  while (focus.isLost && Date.now() < end) focus = await lookAt(control);
  if (focus.isLost) throw new Error(`The focus was lost before ${String(control)}`);
  for (let tabs = 0; !focus.isThere; tabs++) {
    if (tabs === mostTabs) throw new Error(`Not reached in ${mostTabs} tabs: ${String(control)}`);
    await page.keyboard.press(focus.isBefore ? 'Shift+Tab' : 'Tab');
    focus = await lookAt(control);
    if (focus.fault !== '') throw new Error(`On the way to ${String(control)} this ${focus.fault}`);
  }
}

function lookAt(control: Locator): Promise<Focus> {
  return control.evaluate((target) =>
    (globalThis as unknown as { lookAtFocus(one: unknown): Focus }).lookAtFocus(target),
  );
}
