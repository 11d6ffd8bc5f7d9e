import { Stack, Title } from '@mantine/core';
import { useEffect, type ReactNode } from 'react';
import { text } from '../text';

/** A screen: its heading is the page's title too. */
export function Screen({ title, children }: { title: string; children: ReactNode }) {
  useEffect(() => {
    document.title = `${title} · ${text.frame.name}`;
  }, [title]);
  return (
    <Stack gap="md">
      <Title order={1} size="h2">
        {title}
      </Title>
      {children}
    </Stack>
  );
}
