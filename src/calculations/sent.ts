/** The members of a request that were sent, as a plain object: members left out do not hide a default. */
export function sent<T extends object>(request: T): { [Member in keyof T]: T[Member] } {
  const members = Object.entries(request).filter(([, value]) => value !== undefined);
  return Object.fromEntries(members) as { [Member in keyof T]: T[Member] };
}
