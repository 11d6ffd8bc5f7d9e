/** A stretch of a scale that has a name. */
export interface ScaleClass {
  from: number;
  to: number;
  colour: string;
  words: string;
}

export const middlingColour = 'var(--mantine-color-comb-5)';

/** A scale cut into classes, with arrows where something stands. The words beside it say the same. */
export function ClassScale({
  label,
  classes,
  marks,
}: {
  label: string;
  classes: ScaleClass[];
  marks: { at: number; words?: string }[];
}) {
  const least = classes[0]?.from ?? 0;
  const most = classes.at(-1)?.to ?? 1;
  const x = (value: number) =>
    ((Math.min(most, Math.max(least, value)) - least) / (most - least)) * 100;
  return (
    <svg viewBox="0 -4 100 26" className="picture" role="img" aria-label={label}>
      {classes.map(({ from, to, colour, words }, index) => (
        <g key={from}>
          <rect x={x(from)} y="6" width={x(to) - x(from)} height="6" fill={colour} />
          <text
            x={index === 0 ? 0 : index === classes.length - 1 ? 100 : (x(from) + x(to)) / 2}
            y="18"
            fontSize="3.8"
            textAnchor={index === 0 ? 'start' : index === classes.length - 1 ? 'end' : 'middle'}
            fill="currentColor"
          >
            {words}
          </text>
        </g>
      ))}
      {marks.map(({ at, words }) => (
        <g key={words ?? at}>
          <path d={`M${x(at)} 5l-2.5-4h5z`} fill="currentColor" />
          {words !== undefined && (
            <text
              x={x(at)}
              y="-0.5"
              fontSize="3.8"
              textAnchor={x(at) > 75 ? 'end' : x(at) < 25 ? 'start' : 'middle'}
              fill="currentColor"
            >
              {words}
            </text>
          )}
        </g>
      ))}
    </svg>
  );
}
