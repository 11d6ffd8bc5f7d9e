/** What to do about a demo that was interrupted. */
export function startAgain(dataFolder: string): string {
  return `Not everything has been entered: remove ${dataFolder} to have it played from the beginning.`;
}
