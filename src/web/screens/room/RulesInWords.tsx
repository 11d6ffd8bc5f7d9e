import { text } from '../../text';
import { useTimes } from '../../ui/times';
import type { DiaryStation } from './diary';

const words = text.room;

/** What bars and grey mean, in words. */
export function RulesInWords({
  windows,
  closures,
}: {
  windows: DiaryStation['dutyWindows'];
  closures: DiaryStation['closures'];
}) {
  const times = useTimes();
  return (
    <ul className="plain-list soft">
      {windows.map(({ id, duty, startsAt, endsAt, note }) => (
        <li key={id}>
          {words.windowWords(
            words.duties[duty],
            times.dateAndTime(startsAt),
            times.dateAndTime(endsAt),
            note,
          )}
        </li>
      ))}
      {closures.map(({ id, startsAt, endsAt, reason }) => (
        <li key={id}>
          {words.closedWords(times.dayAndTime(startsAt), times.dayAndTime(endsAt), reason)}
        </li>
      ))}
    </ul>
  );
}
