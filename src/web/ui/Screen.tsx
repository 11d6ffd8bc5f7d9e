import { Stack, Title } from '@mantine/core';
import { useEffect, useRef, type ReactNode } from 'react';
import { focusOn } from './keep-focus';
import { text } from '../text';

let isFirst = true;

/** A screen: its heading is the page's title too, and has the focus when somebody comes here from another screen. */
export function Screen({ title, children }: { title: string; children: ReactNode }) {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    document.title = `${title} · ${text.frame.name}`;
    if (!isFirst && heading.current !== null) focusOn(heading.current);
    isFirst = false;
  }, [title]);
  return (
    <Stack gap="md">
      <Title order={1} size="h2" ref={heading}>
        {title}
      </Title>
      {children}
    </Stack>
  );
}
