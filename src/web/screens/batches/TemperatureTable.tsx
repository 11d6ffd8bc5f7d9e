import { text } from '../../text';
import { useTimes } from '../../ui/times';
import { useUnitWords } from '../../ui/units';
import { bestLogged, type Temperatures } from './temperature-queries';

const words = text.batches.temperatures;
const hourMs = 3_600_000;
/** So many rows are read in a minute. */
const mostRows = 24;

/** The drawing's numbers, every few hours, for whoever cannot see it. */
export function TemperatureTable({ temperatures }: { temperatures: Temperatures }) {
  const times = useTimes();
  const { temperature } = useUnitWords();
  const degrees = (celsius: number | undefined) =>
    celsius === undefined ? '–' : temperature(celsius);
  const logged = bestLogged(temperatures);
  const rows = rowsOf(temperatures);
  return (
    <details>
      <summary>{words.table}</summary>
      {/* Reached by the keyboard, so that it can be scrolled by it. */}
      <div className="scroll-x" tabIndex={0} role="group" aria-label={words.title}>
        <table className="plain">
          <thead>
            <tr>
              <th scope="col">{words.columns.when}</th>
              {temperatures.planned !== null && (
                <>
                  <th scope="col">{words.columns.core}</th>
                  <th scope="col">{words.columns.rim}</th>
                  <th scope="col">{words.columns.air}</th>
                </>
              )}
              {logged !== undefined && <th scope="col">{words.columns.logged}</th>}
            </tr>
          </thead>
          <tbody>
            {rows.map(({ atMs, planned, loggedC }) => (
              <tr key={atMs}>
                <th scope="row">{times.dayAndTime(new Date(atMs))}</th>
                {temperatures.planned !== null && (
                  <>
                    <td>{degrees(planned?.coldestC)}</td>
                    <td>{degrees(planned?.warmestC)}</td>
                    <td>{degrees(planned?.airC)}</td>
                  </>
                )}
                {logged !== undefined && <td>{degrees(loggedC)}</td>}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </details>
  );
}

/** Every so many hours, from the first that is told to the last: what was planned and logged nearest to that time. */
function rowsOf(temperatures: Temperatures) {
  const planned = (temperatures.planned?.points ?? []).map((point) => ({
    ...point,
    atMs: Date.parse(point.at),
  }));
  const logged = (bestLogged(temperatures)?.points ?? []).map(({ at, temperatureC }) => ({
    atMs: Date.parse(at),
    temperatureC,
  }));
  const all = [...planned, ...logged].map(({ atMs }) => atMs);
  const [first, last] = [Math.min(...all), Math.max(...all)];
  const everyMs = Math.max(1, Math.ceil((last - first) / hourMs / mostRows)) * hourMs;
  const rows = [];
  for (let atMs = first; atMs <= last; atMs += everyMs) {
    rows.push({
      atMs,
      planned: nearest(planned, atMs, everyMs),
      loggedC: nearest(logged, atMs, everyMs)?.temperatureC,
    });
  }
  return rows;
}

/** The one nearest to that time, but no farther than half a row. */
function nearest<Point extends { atMs: number }>(
  points: readonly Point[],
  atMs: number,
  everyMs: number,
): Point | undefined {
  let best: Point | undefined;
  for (const point of points) {
    if (Math.abs(point.atMs - atMs) > everyMs / 2) continue;
    if (best === undefined || Math.abs(point.atMs - atMs) < Math.abs(best.atMs - atMs))
      best = point;
  }
  return best;
}
