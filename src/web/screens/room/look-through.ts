/** How long somebody may look through a form before a time that it proposes is past, and refused. */
export const lookThroughMs = 5 * 60_000;
