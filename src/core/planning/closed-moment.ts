import { minutesToMs, type Span, type Wish } from './station-times';

/** When a wish would need somebody in the room who cannot come in, and when the room opens after that. */
export type ClosedMoment = {
  /** At its start, at its end, or at the bench in between. */
  readonly part: 'start' | 'end' | 'between';
  readonly closedAt: number;
  /** Null: not within the times known. */
  readonly opensNext: Span | null;
};

/**
 * The first moment at which `whyNot` finds the room closed to a wish that starts at `startsAt`; null when it
 * is open when it must be. `open` as in `StationTimes`: in order, apart from each other. Instants in epoch
 * milliseconds.
 */
export function closedMoment(
  open: readonly Span[],
  wish: Wish,
  startsAt: number,
): ClosedMoment | null {
  const endsAt = startsAt + minutesToMs(wish.minutes);
  const openAt = (instant: number) =>
    open.find((span) => span.startsAt <= instant && instant < span.endsAt);
  const answer = (part: ClosedMoment['part'], closedAt: number): ClosedMoment => ({
    part,
    closedAt,
    opensNext: open.find((span) => span.startsAt > closedAt) ?? null,
  });

  const atStart = openAt(startsAt);
  if (atStart === undefined) return answer('start', startsAt);
  if (startsAt > atStart.endsAt - minutesToMs(1)) return answer('start', atStart.endsAt);
  if (wish.duty === 'bench') {
    return endsAt <= atStart.endsAt ? null : answer('between', atStart.endsAt);
  }
  const canClear = openAt(endsAt) ?? open.find((span) => span.endsAt === endsAt);
  return canClear === undefined ? answer('end', endsAt) : null;
}
