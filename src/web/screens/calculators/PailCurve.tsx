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
    // Where the two lie the furthest apart, early on, there is room for words.
    const told = drawn[Math.floor(drawn.length / 6)];
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
        ...(told === undefined
          ? []
          : [
              Plot.text(
                [
                  { y: told.solid, words: solidWords },
                  { y: told.dashed, words: dashedWords },
                ],
                {
                  x: () => told.atHours,
                  y: 'y',
                  text: 'words',
                  textAnchor: 'start',
                  dx: 8,
                  dy: told.solid > told.dashed ? -8 : 10,
                  fontSize: 13,
                },
              ),
            ]),
      ],
    };
  }, [rows, solidWords, dashedWords, levelC, markAtHours, units]);
  return <Drawing label={label} options={options} />;
}
