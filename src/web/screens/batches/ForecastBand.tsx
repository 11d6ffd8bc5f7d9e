import type { components } from '../../api/schema';
import { text } from '../../text';
import { useTimes } from '../../ui/times';

type Forecast = components['schemas']['Forecast'];

const dayMs = 86_400_000;
const wide = 320;
const barHeight = 26;

/** Between which days it sets, with 50, 80 and 95 %: three bars above each other on one line of days, and today. */
export function ForecastBand({ forecast: { within } }: { forecast: Forecast }) {
  const times = useTimes();
  const bars = within.flatMap(({ certaintyPercent, earliest, latest }) =>
    earliest === null || latest === null
      ? []
      : [{ certaintyPercent, from: Date.parse(earliest.at), to: Date.parse(latest.at) }],
  );
  if (bars.length === 0) return null;
  const now = Date.now();
  const first = Math.min(now, ...bars.map(({ from }) => from)) - dayMs / 2;
  const last = Math.max(now, ...bars.map(({ to }) => to)) + dayMs / 2;
  const x = (at: number) => (wide * (at - first)) / (last - first);
  const day = (at: number) => times.shortDay(new Date(at));
  const height = bars.length * barHeight;
  const label = text.batches.forecastPicture(
    bars
      .map(({ certaintyPercent, from, to }) =>
        text.batches.betweenDays(certaintyPercent, day(from), day(to)),
      )
      .join('; '),
  );
  return (
    <svg
      viewBox={`0 0 ${wide} ${height + 16}`}
      className="forecast-band"
      role="img"
      aria-label={label}
    >
      {bars.map(({ certaintyPercent, from, to }, index) => {
        const y = index * barHeight;
        const [left, right] = [x(from), x(to)];
        // Words stand where there is room: within a wide bar, else beside it.
        const words = `${text.batches.oftenShort(certaintyPercent)}: ${day(from)} – ${day(to)}`;
        const fits = right - left > 128;
        const toTheLeft = !fits && right > wide - 128;
        return (
          <g key={certaintyPercent}>
            <rect
              x={left}
              y={y + 3}
              width={Math.max(3, right - left)}
              height={barHeight - 6}
              rx="4"
              fill="var(--cool)"
              fillOpacity={0.85 - index * 0.28}
              stroke="var(--cool)"
            />
            <text
              x={fits ? left + 6 : toTheLeft ? left - 5 : right + 5}
              y={y + barHeight / 2 + 4}
              fontSize="11"
              textAnchor={toTheLeft ? 'end' : 'start'}
              fill={fits && index === 0 ? 'var(--sheet)' : 'currentColor'}
            >
              {words}
            </text>
          </g>
        );
      })}
      <path d={`M${x(now)} 0V${height}`} stroke="currentColor" strokeDasharray="3 3" />
      <text
        x={x(now)}
        y={height + 12}
        fontSize="11"
        textAnchor={x(now) < 30 ? 'start' : x(now) > wide - 30 ? 'end' : 'middle'}
        fill="currentColor"
      >
        {text.batches.today}
      </text>
    </svg>
  );
}
