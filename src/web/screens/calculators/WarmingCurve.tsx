import * as Plot from '@observablehq/plot';
import { useCallback } from 'react';
import type { components } from '../../api/schema';
import { text } from '../../text';
import { Drawing } from '../../ui/Drawing';
import { typedTemperature, useUnitWords } from '../../ui/units';

const words = text.calculators;

/** How the coldest and the warmest of a pail warm up; a line where it is clear. */
export function WarmingCurve({
  curve,
  clearAtHours,
}: {
  curve: components['schemas']['PailPoint'][];
  clearAtHours: number | null;
}) {
  const { units, temperatureUnit } = useUnitWords();
  const options = useCallback((): Plot.PlotOptions => {
    const rows = curve.map(({ atHours, coreC, surfaceC }) => ({
      atHours,
      core: typedTemperature(coreC, units),
      surface: typedTemperature(surfaceC, units),
    }));
    // Where the two lie the furthest apart, early on, there is room for words.
    const told = rows[Math.floor(rows.length / 6)];
    return {
      height: 220,
      marginRight: 60,
      x: { label: words.hours },
      y: { label: temperatureUnit, grid: true },
      marks: [
        Plot.lineY(rows, { x: 'atHours', y: 'surface', stroke: 'var(--warm)', strokeWidth: 2 }),
        Plot.lineY(rows, {
          x: 'atHours',
          y: 'core',
          stroke: 'var(--cool)',
          strokeWidth: 2,
          strokeDasharray: '6 3',
        }),
        ...(clearAtHours === null ? [] : [Plot.ruleX([clearAtHours], { strokeDasharray: '2 3' })]),
        ...(told === undefined
          ? []
          : [
              Plot.text(
                [
                  { y: told.surface, words: words.surface },
                  { y: told.core, words: words.core },
                ],
                {
                  x: () => told.atHours,
                  y: 'y',
                  text: 'words',
                  textAnchor: 'start',
                  dx: 8,
                  dy: 10,
                  fontSize: 13,
                },
              ),
            ]),
      ],
    };
  }, [curve, clearAtHours, units, temperatureUnit]);
  return <Drawing label={words.warmingCurve} options={options} />;
}
