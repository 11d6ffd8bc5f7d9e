/** Works through the items, a few at a time, and answers in their order. */
export async function inTurns<Item, Answer>(
  items: readonly Item[],
  work: (item: Item) => PromiseLike<Answer>,
  atOnce = 8,
): Promise<Answer[]> {
  const answers: Answer[] = [];
  for (let start = 0; start < items.length; start += atOnce) {
    answers.push(...(await Promise.all(items.slice(start, start + atOnce).map(work))));
  }
  return answers;
}
