/** From which all chance in the demo comes. */
export const demoSeed = 1104;

/** The day of which test/data/demo-batches.csv tells. */
export const csvReferenceDay = '2026-11-01';
