import type { ApiClient } from './api';

/** The club as far as it has been entered: who calls, and which ids the service gave. */
export class EnteredClub {
  private readonly callers = new Map<string, ApiClient>();
  private readonly ids = new Map<string, string>();

  constructor(
    /** Path of the club, below /api/v1. */
    readonly path: string,
    readonly founder: ApiClient,
  ) {}

  memberJoined(ref: string, caller: ApiClient, id: string): void {
    this.callers.set(ref, caller);
    this.entered(ref, id);
  }

  entered(ref: string, id: string): void {
    this.ids.set(ref, id);
  }

  /** The id that the service gave to the member, source, station, lot or batch of that ref. */
  id(ref: string): string {
    return found(this.ids.get(ref), ref);
  }

  /** The service, as that member. */
  as(memberRef: string): ApiClient {
    return found(this.callers.get(memberRef), memberRef);
  }
}

function found<Thing>(thing: Thing | undefined, ref: string): Thing {
  if (thing === undefined) throw new Error(`${ref} has not been entered.`);
  return thing;
}
