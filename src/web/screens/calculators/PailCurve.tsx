import * as Plot from '@observablehq/plot';
import { useCallback } from 'react';
import { text } from '../../text';
import { useUnits } from '../../ui/choices';
import { Drawing } from '../../ui/Drawing';
import { typedTemperature } from '../../ui/units';

const words = text.calculators;

interface PailRow {
  atHours: number;
  solidC: number;
  dashedC: number;
}

/** How two places of a pail warm or cool; a level to be passed, and a line when it is. */
export function PailCurve({
  label,
  rows,
  solidWords,
  dashedWords,
  levelC,
  markAtHours,
}: {
  label: string;
  rows: PailRow[];
  solidWords: string;
  dashedWords: string;
  levelC: number;
  markAtHours: number | null;
}) {
  const units = useUnits();
  const options = useCallback((): Plot.PlotOptions => {
    const degrees = (celsius: number) => typedTemperature(celsius, units);
    const drawn = rows.map(({ atHours, solidC, dashedC }) => ({
      atHours,
      solid: degrees(solidC),
      dashed: degrees(dashedC),
    }));
    // Early on the two lie far apart; what rises leaves room above it to the left, what falls to the right.
    const isRising = (drawn.at(-1)?.solid ?? 0) > (drawn[0]?.solid ?? 0);
    const told = drawn[Math.floor(drawn.length / 5)];
    const toldLater = drawn[Math.floor(drawn.length / (isRising ? 3 : 4))];
    const [above, below] = isRising ? [toldLater, told] : [told, toldLater];
    const halo = { fontSize: 13, stroke: 'var(--sheet)', strokeWidth: 5, fill: 'var(--ink)' };
    return {
      height: 220,
      marginRight: 60,
      x: { label: words.hours },
      y: { label: units === 'imperial' ? '°F' : '°C', grid: true },
      marks: [
        Plot.ruleY([degrees(levelC)], { stroke: 'var(--ink-soft)', strokeDasharray: '2 3' }),
        Plot.lineY(drawn, { x: 'atHours', y: 'solid', stroke: 'var(--warm)', strokeWidth: 2 }),
        Plot.lineY(drawn, {
          x: 'atHours',
          y: 'dashed',
          stroke: 'var(--cool)',
          strokeWidth: 2,
          strokeDasharray: '6 3',
        }),
        ...(markAtHours === null ? [] : [Plot.ruleX([markAtHours], { strokeDasharray: '2 3' })]),
        ...(above === undefined || below === undefined
          ? []
          : [
              Plot.text([solidWords], {
                x: [above.atHours],
                y: [above.solid],
                textAnchor: isRising ? 'end' : 'start',
                dx: isRising ? -2 : 6,
                dy: -10,
                ...halo,
              }),
              Plot.text([dashedWords], {
                x: [below.atHours],
                y: [below.dashed],
                textAnchor: isRising ? 'start' : 'end',
                dx: isRising ? 6 : -2,
                dy: 12,
                ...halo,
              }),
            ]),
      ],
    };
  }, [rows, solidWords, dashedWords, levelC, markAtHours, units]);
  return <Drawing label={label} options={options} />;
}
