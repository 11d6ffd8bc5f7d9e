import { useState, type ReactNode } from 'react';

/** A part of a screen that is folded away, and made when somebody opens it. */
export function Folded({
  summary,
  className = 'sheet',
  children,
}: {
  summary: ReactNode;
  className?: string;
  children: () => ReactNode;
}) {
  const [isOpen, setOpen] = useState(false);
  return (
    <details className={className} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{summary}</summary>
      {isOpen && children()}
    </details>
  );
}
