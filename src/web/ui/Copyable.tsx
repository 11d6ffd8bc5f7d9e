import { Button, Group } from '@mantine/core';
import { useState } from 'react';
import { text } from '../text';

/** Something to be taken elsewhere as it is. */
export function Copyable({ value }: { value: string }) {
  const [isCopied, setCopied] = useState(false);
  const copy = async () => {
    await navigator.clipboard.writeText(value);
    setCopied(true);
  };
  return (
    <Group gap="xs" align="center">
      <code className="copyable">{value}</code>
      <Button variant="default" onClick={() => void copy()}>
        {isCopied ? text.club.copied : text.club.copy}
      </Button>
    </Group>
  );
}
