import * as Plot from '@observablehq/plot';
import { useCallback } from 'react';
import { text } from '../../text';
import { Drawing } from '../../ui/Drawing';
import type { SettingTimes } from './setting-queries';

const words = text.settingTimes;

/** For each group the day by which half had set, drawn towards the others, with its limits: those with few batches do not shout. */
export function MedianDots({ times }: { times: SettingTimes }) {
  const options = useCallback((): Plot.PlotOptions => {
    const rows = times.groups.flatMap(({ name, pooled }) =>
      pooled?.medianDays == null
        ? []
        : [{ name, at: pooled.medianDays, from: pooled.lowerDays, to: pooled.upperDays }],
    );
    return {
      height: rows.length * 30 + 50,
      marginLeft: 120,
      x: {
        label: words.days,
        grid: true,
        domain: [0, Math.max(...rows.map(({ to, at }) => to ?? at), 1)],
      },
      y: { label: null, domain: [...rows].sort((a, b) => a.at - b.at).map(({ name }) => name) },
      marks: [
        Plot.ruleY(rows, {
          y: 'name',
          x1: 'from',
          x2: 'to',
          stroke: 'var(--bench)',
          strokeWidth: 3,
        }),
        Plot.dot(rows, { y: 'name', x: 'at', fill: 'var(--bench)', r: 6 }),
      ],
    };
  }, [times]);
  return <Drawing label={words.dots} options={options} />;
}
