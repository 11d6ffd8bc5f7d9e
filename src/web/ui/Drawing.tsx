import * as Plot from '@observablehq/plot';
import { useEffect, useRef, useState } from 'react';

/** A drawing of numbers, as wide as there is room. `label` says in words what it shows. Loaded only where something is drawn. */
export function Drawing({
  label,
  options,
}: {
  label: string;
  options: (width: number) => Plot.PlotOptions;
}) {
  const frame = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(0);
  useEffect(() => {
    if (frame.current === null) return;
    const observer = new ResizeObserver(([entry]) =>
      setWidth(Math.floor(entry?.contentRect.width ?? 0)),
    );
    observer.observe(frame.current);
    return () => observer.disconnect();
  }, []);
  useEffect(() => {
    if (frame.current === null || width === 0) return;
    const drawn = Plot.plot({
      width,
      style: { background: 'none', color: 'inherit' },
      ...options(width),
    });
    drawn.setAttribute('role', 'img');
    drawn.setAttribute('aria-label', label);
    // The library labels groups, which have no role that may carry a label.
    for (const part of drawn.querySelectorAll('[aria-label],[aria-description]')) {
      part.removeAttribute('aria-label');
      part.removeAttribute('aria-description');
    }
    frame.current.replaceChildren(drawn);
  }, [width, label, options]);
  return <div ref={frame} className="drawing" />;
}
