import { Button, Group } from '@mantine/core';
import * as Plot from '@observablehq/plot';
import { useCallback, useRef, useState } from 'react';
import { text } from '../../text';
import { Drawing } from '../../ui/Drawing';
import type { SettingGroup } from './setting-queries';

const words = text.settingTimes;

/** Told apart by colour and by stroke, so that grey eyes and grey print can, too. */
const strokes = [
  { colour: 'var(--warm)', dash: '' },
  { colour: 'var(--cool)', dash: '7 3' },
  { colour: 'var(--bench)', dash: '2 3' },
];

interface Point {
  name: string;
  day: number;
  share: number;
  lower: number;
  upper: number;
}

/** The share not yet set, falling day by day, with its 95 % limits; up to three groups at a time. */
export function Curves({ groups }: { groups: SettingGroup[] }) {
  const drawable = groups.filter(({ curve, tooFew }) => tooFew === null && curve.length > 0);
  const [chosen, setChosen] = useState(drawable.slice(0, 2).map(({ name }) => name));
  const frame = useRef<HTMLDivElement>(null);
  const toggle = (name: string) =>
    setChosen(
      chosen.includes(name)
        ? chosen.filter((one) => one !== name)
        : [...chosen, name].slice(-strokes.length),
    );
  const options = useCallback((): Plot.PlotOptions => {
    const shown = groups.filter(({ name }) => chosen.includes(name));
    return {
      height: 280,
      marginLeft: 44,
      x: { label: words.days, nice: true },
      y: { label: '%', domain: [0, 100], grid: true },
      marks: shown.flatMap((group) => {
        const points = pointsOf(group);
        const { colour, dash } = strokes[chosen.indexOf(group.name)] ?? { colour: '', dash: '' };
        return [
          Plot.areaY(points, {
            x: 'day',
            y1: 'lower',
            y2: 'upper',
            fill: colour,
            fillOpacity: 0.14,
            curve: 'step-after',
          }),
          Plot.lineY(points, {
            x: 'day',
            y: 'share',
            stroke: colour,
            strokeWidth: 2.5,
            strokeDasharray: dash,
            curve: 'step-after',
          }),
          Plot.text(points.slice(Math.floor(points.length / 2)).slice(0, 1), {
            x: 'day',
            y: 'share',
            text: 'name',
            textAnchor: 'start',
            dx: 6,
            dy: -8,
            fill: colour,
            fontWeight: 'bold',
          }),
        ];
      }),
    };
  }, [groups, chosen]);
  return (
    <>
      <Group gap="xs" className="no-print" role="group" aria-label={words.show}>
        {drawable.map(({ name }) => (
          <Button
            key={name}
            variant="default"
            className="chip"
            aria-pressed={chosen.includes(name)}
            onClick={() => toggle(name)}
          >
            {name}
          </Button>
        ))}
      </Group>
      <div ref={frame}>
        <Drawing label={words.curvesOf(chosen.join(', '))} options={options} />
      </div>
      <Button variant="default" className="no-print" onClick={() => save(frame.current)}>
        {words.picture}
      </Button>
    </>
  );
}

function pointsOf({ name, curve }: SettingGroup): Point[] {
  const start = { name, day: 0, share: 100, lower: 100, upper: 100 };
  const steps = curve.map((step) => ({
    name,
    day: step.rightDays ?? step.leftDays,
    share: step.stillSetting * 100,
    lower: (step.stillSettingLower ?? step.stillSetting) * 100,
    upper: (step.stillSettingUpper ?? step.stillSetting) * 100,
  }));
  return [start, ...steps];
}

/** Saves the drawing with the colours of this moment: a file knows nothing of the page's variables. */
function save(frame: HTMLElement | null): void {
  const drawn = frame?.querySelector('svg');
  if (!drawn) return;
  const colours = getComputedStyle(document.body);
  const source = new XMLSerializer()
    .serializeToString(drawn)
    .replace(/var\((--[a-z-]+)\)/g, (_whole, name: string) =>
      colours.getPropertyValue(name).trim(),
    );
  const address = URL.createObjectURL(new Blob([source], { type: 'image/svg+xml' }));
  const link = document.createElement('a');
  link.href = address;
  link.download = 'setting-times.svg';
  link.click();
  URL.revokeObjectURL(address);
}
