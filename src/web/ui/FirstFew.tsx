import { Button } from '@mantine/core';
import { useState, type ReactNode } from 'react';
import { text } from '../text';

/** The first few of many, and as many more with each tap. */
export function FirstFew<Item>({
  items,
  count,
  more = count,
  children,
}: {
  items: readonly Item[];
  count: number;
  more?: number;
  children: (few: readonly Item[]) => ReactNode;
}) {
  const [shown, setShown] = useState(count);
  return (
    <>
      {children(items.slice(0, shown))}
      {items.length > shown && (
        <Button variant="default" w="fit-content" onClick={() => setShown(shown + more)}>
          {text.frame.more}
        </Button>
      )}
    </>
  );
}
