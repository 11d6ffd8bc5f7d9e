import * as Plot from '@observablehq/plot';
import { useCallback } from 'react';
import { useClub } from '../../api/club';
import type { components } from '../../api/schema';
import { text } from '../../text';
import { useUnits } from '../../ui/choices';
import { Drawing } from '../../ui/Drawing';
import { axisWords, wallClock } from '../../ui/times';
import { typedTemperature } from '../../ui/units';

/** What one probe read: a line, within the band from the coldest to the warmest of each stretch. */
export function ReadingsCurve({
  readings,
}: {
  readings: components['schemas']['ReadingResponse'][];
}) {
  const { timeZone } = useClub();
  const units = useUnits();
  const options = useCallback((): Plot.PlotOptions => {
    const degrees = (celsius: number) => typedTemperature(celsius, units);
    const rows = readings.map(({ at, temperatureC, minC, maxC }) => ({
      at: wallClock(at, timeZone),
      mean: degrees(temperatureC),
      min: degrees(minC),
      max: degrees(maxC),
    }));
    return {
      height: 220,
      marginLeft: 40,
      x: { type: 'utc', label: null, ticks: 4, tickFormat: axisWords },
      y: { label: units === 'imperial' ? '°F' : '°C', grid: true, nice: true },
      marks: [
        Plot.areaY(rows, { x: 'at', y1: 'min', y2: 'max', fill: 'var(--warm)', fillOpacity: 0.25 }),
        Plot.lineY(rows, { x: 'at', y: 'mean', stroke: 'var(--warm)', strokeWidth: 2 }),
        ...(rows.length === 1 ? [Plot.dot(rows, { x: 'at', y: 'mean', fill: 'var(--warm)' })] : []),
      ],
    };
  }, [readings, timeZone, units]);
  return <Drawing label={text.probes.drawing} options={options} />;
}
