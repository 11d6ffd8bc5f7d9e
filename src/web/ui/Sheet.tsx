import { Title } from '@mantine/core';
import type { ReactNode } from 'react';

/** A part of a screen under a heading of its own. */
export function Sheet({
  title,
  children,
  aside,
}: {
  title?: string;
  children: ReactNode;
  aside?: ReactNode;
}) {
  return (
    <section className="sheet">
      {title !== undefined && (
        <div className="sheet-head">
          <Title order={2} size="h4" mb="sm">
            {title}
          </Title>
          {aside}
        </div>
      )}
      {children}
    </section>
  );
}
