import * as Plot from '@observablehq/plot';
import { useCallback } from 'react';
import { useClub } from '../../api/club';
import { text } from '../../text';
import { Drawing } from '../../ui/Drawing';
import { axisWords, wallClock } from '../../ui/times';
import { useUnits } from '../../ui/choices';
import { temperatureText, typedTemperature } from '../../ui/units';
import type { Batch } from './batch-queries';
import type { Temperatures } from './temperature-queries';

const words = text.batches.temperatures;

/** Planned as a band from the coldest to the warmest of a pail, logged as lines, steps as dots, limits as level lines. */
export function TemperatureCurves({
  temperatures: { planned, logged, limits },
  steps,
}: {
  temperatures: Temperatures;
  steps: Batch['steps'];
}) {
  const { timeZone } = useClub();
  const units = useUnits();
  const options = useCallback((): Plot.PlotOptions => {
    const temperature = (celsius: number) => temperatureText(celsius, units);
    const degrees = (celsius: number) => typedTemperature(celsius, units);
    const wall = (at: string) => wallClock(at, timeZone);
    const plannedRows = (planned?.points ?? []).map((point) => ({
      at: wall(point.at),
      coldest: degrees(point.coldestC),
      warmest: degrees(point.warmestC),
      air: degrees(point.airC),
    }));
    const lines = logged.map(({ place, points }) => ({
      place,
      rows: points.map((point) => ({
        at: wall(point.at),
        mean: degrees(point.temperatureC),
        min: degrees(point.minC),
        max: degrees(point.maxC),
      })),
    }));
    const dots = steps.flatMap(({ at, temperatureC }) =>
      temperatureC === null ? [] : [{ at: wall(at), degrees: degrees(temperatureC) }],
    );
    const all = [
      ...plannedRows.flatMap(({ warmest, air }) => [warmest, air]),
      ...lines.flatMap(({ rows }) => rows.map(({ max }) => max)),
      ...dots.map((dot) => dot.degrees),
    ];
    const levels = [
      { at: degrees(limits.seedC), words: words.seedLine(temperature(limits.seedC)) },
      { at: degrees(limits.clearC), words: words.clearLine(temperature(limits.clearC)) },
      { at: degrees(limits.hottestC), words: words.hottestLine(temperature(limits.hottestC)) },
    ];
    return {
      height: 280,
      marginLeft: 40,
      marginRight: 12,
      x: { type: 'utc', label: null, ticks: 4, tickFormat: axisWords },
      y: {
        label: units === 'imperial' ? '°F' : '°C',
        grid: true,
        domain: [degrees(5), Math.max(degrees(limits.hottestC + 3), ...all)],
      },
      marks: [
        Plot.areaY(plannedRows, {
          x: 'at',
          y1: 'coldest',
          y2: 'warmest',
          fill: 'var(--ink-soft)',
          fillOpacity: 0.2,
        }),
        Plot.lineY(plannedRows, {
          x: 'at',
          y: 'coldest',
          stroke: 'var(--ink-soft)',
          strokeDasharray: '6 4',
        }),
        Plot.lineY(plannedRows, {
          x: 'at',
          y: 'warmest',
          stroke: 'var(--ink-soft)',
          strokeDasharray: '6 4',
        }),
        Plot.lineY(plannedRows, {
          x: 'at',
          y: 'air',
          stroke: 'var(--cool)',
          strokeDasharray: '1 4',
          curve: 'step-after',
        }),
        Plot.ruleY(levels, { y: 'at', stroke: 'var(--ink)', strokeOpacity: 0.35 }),
        ...levels.map(({ at, words: level }, index) =>
          Plot.text([{ at, level }], {
            y: 'at',
            text: 'level',
            // By the time that a pail has cooled to seeding it is at the right edge; in the middle it is warm.
            frameAnchor: index === 0 ? 'middle' : 'right',
            textAnchor: index === 0 ? 'middle' : 'end',
            dy: -7,
            fontSize: 12,
            fill: 'currentColor',
            stroke: 'var(--sheet)',
            strokeWidth: 4,
          }),
        ),
        ...lines.flatMap(({ place, rows }) => [
          Plot.areaY(rows, {
            x: 'at',
            y1: 'min',
            y2: 'max',
            fill: place === 'honey' ? 'var(--warm)' : 'var(--cool)',
            fillOpacity: 0.25,
          }),
          Plot.lineY(rows, {
            x: 'at',
            y: 'mean',
            stroke: place === 'honey' ? 'var(--warm)' : 'var(--cool)',
            strokeWidth: place === 'honey' ? 2.5 : 1.25,
          }),
        ]),
        Plot.dot(dots, {
          x: 'at',
          y: 'degrees',
          r: 5,
          fill: 'var(--bench)',
          stroke: 'var(--sheet)',
        }),
      ],
    };
  }, [planned, logged, limits, steps, timeZone, units]);
  return <Drawing label={words.drawing} options={options} />;
}
