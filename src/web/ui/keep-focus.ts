/**
 * Keeps the keyboard's place. What has the focus may go away (a form that was sent, a button that became a form) or be out of use for a
 * while (a button that waits for the service); a browser then drops the focus, and the next Tab starts from the top of the page. So the
 * focus goes to the heading of the nearest part that is still there, and back to a button as soon as it can be used again. Ends with the
 * page.
 */
export function keepFocus(): void {
  let last: { element: Element; around: Element[] } | null = null;

  document.addEventListener('focusin', ({ target }) => {
    if (target instanceof Element) last = { element: target, around: ancestorsOf(target) };
  });
  document.addEventListener('focusout', ({ target }) => {
    // A tap beside everything leaves the focus nowhere, and is meant to.
    queueMicrotask(() => {
      if (last?.element === target && isUsable(last.element) && isFocusNowhere()) last = null;
    });
  });
  new MutationObserver(() => {
    if (last === null || !isFocusNowhere()) return;
    const { element, around } = last;
    if (isUsable(element)) focusOn(element);
    else if (!element.isConnected) focusOn(placeWithin(around.find((one) => one.isConnected)));
  }).observe(document.body, { childList: true, subtree: true, attributeFilter: ['disabled'] });
}

/** Moves the focus to something that takes none by itself, such as a heading. */
export function focusOn(element: Element | undefined): void {
  if (!(element instanceof HTMLElement || element instanceof SVGElement)) return;
  if (element.tabIndex < 0 && !element.hasAttribute('tabindex')) {
    element.setAttribute('tabindex', '-1');
  }
  element.focus();
}

function ancestorsOf(element: Element): Element[] {
  const found: Element[] = [];
  for (let one = element.parentElement; one !== null; one = one.parentElement) found.push(one);
  return found;
}

function isUsable(element: Element): boolean {
  return element.isConnected && !element.matches(':disabled');
}

function isFocusNowhere(): boolean {
  return document.activeElement === null || document.activeElement === document.body;
}

function placeWithin(part: Element | undefined): Element | undefined {
  const nearest = part?.closest('article, section, main') ?? document.querySelector('main');
  return nearest?.querySelector('h1, h2, h3') ?? nearest ?? undefined;
}
