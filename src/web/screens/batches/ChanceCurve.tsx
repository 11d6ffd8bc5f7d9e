import * as Plot from '@observablehq/plot';
import { useCallback } from 'react';
import type { components } from '../../api/schema';
import { text } from '../../text';
import { Drawing } from '../../ui/Drawing';

/** The chance that it has set, rising day by day, with the days by which it has with 50, 80 and 95 %. */
export function ChanceCurve({
  curve,
  setBy,
}: {
  curve: components['schemas']['ChanceByDay'][];
  setBy: components['schemas']['SetByDay'][];
}) {
  const options = useCallback(
    (): Plot.PlotOptions => ({
      height: 180,
      marginLeft: 44,
      x: { type: 'utc', label: null },
      y: { domain: [0, 100], label: '%', grid: true },
      marks: [
        Plot.areaY(curve, {
          x: ({ on }: { on: string }) => new Date(on),
          y: 'chancePercent',
          fill: 'var(--cool)',
          fillOpacity: 0.25,
        }),
        Plot.lineY(curve, {
          x: ({ on }: { on: string }) => new Date(on),
          y: 'chancePercent',
          stroke: 'var(--cool)',
          strokeWidth: 2,
        }),
        Plot.ruleX(
          setBy.flatMap(({ by }) => (by === null ? [] : [new Date(by.on)])),
          { stroke: 'var(--ink-soft)', strokeDasharray: '3 3' },
        ),
      ],
    }),
    [curve, setBy],
  );
  return <Drawing label={text.batches.curve} options={options} />;
}
