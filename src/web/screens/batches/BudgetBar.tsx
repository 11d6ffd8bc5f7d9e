import { Text } from '@mantine/core';
import { useId } from 'react';

/** A budget as a bar: spent so far, to be spent by the plan, and what is left. Parts are of the whole budget, 0 to 1 and beyond. */
export function BudgetBar({
  title,
  label,
  soFarPart,
  plannedPart,
}: {
  title: string;
  label: string;
  soFarPart: number;
  plannedPart: number;
}) {
  const hatch = useId();
  const width = (part: number) => 300 * Math.min(1, Math.max(0, part));
  return (
    <>
      <Text fw={600} mt="sm">
        {title}
      </Text>
      <svg viewBox="0 0 300 20" className="budget-bar" role="img" aria-label={label}>
        <pattern
          id={hatch}
          width="6"
          height="6"
          patternUnits="userSpaceOnUse"
          patternTransform="rotate(45)"
        >
          <path d="M0 0v6" stroke="var(--warm)" strokeWidth="3" />
        </pattern>
        <rect
          x="0.5"
          y="0.5"
          width="299"
          height="19"
          rx="4"
          fill="var(--ground)"
          stroke="var(--ink-soft)"
        />
        <rect
          x="0"
          y="0"
          width={width(plannedPart)}
          height="20"
          rx="4"
          fill={`url(#${hatch})`}
          stroke="var(--warm)"
        />
        <rect x="0" y="0" width={width(soFarPart)} height="20" rx="4" fill="var(--warm)" />
      </svg>
    </>
  );
}
