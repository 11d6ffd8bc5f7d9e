import { text } from '../../text';
import { useTimes } from '../../ui/times';
import type { Closure, DutyWindow } from './room-queries';

const words = text.room;

/** What bars and grey mean, in words. */
export function RulesInWords({
  windows,
  closures,
  from,
  to,
}: {
  windows: DutyWindow[];
  closures: Closure[];
  from: number;
  to: number;
}) {
  const times = useTimes();
  const isSeen = ({ startsAt, endsAt }: { startsAt: string; endsAt: string }) =>
    Date.parse(startsAt) < to && Date.parse(endsAt) > from;
  return (
    <ul className="plain-list soft">
      {windows.filter(isSeen).map(({ id, duty, startsAt, endsAt, note }) => (
        <li key={id}>
          {words.windowWords(
            words.duties[duty],
            times.dateAndTime(startsAt),
            times.dateAndTime(endsAt),
            note,
          )}
        </li>
      ))}
      {closures.filter(isSeen).map(({ id, startsAt, endsAt, reason }) => (
        <li key={id}>
          {words.closedWords(times.dayAndTime(startsAt), times.dayAndTime(endsAt), reason)}
        </li>
      ))}
    </ul>
  );
}
