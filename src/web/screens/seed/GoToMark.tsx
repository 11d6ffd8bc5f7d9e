import { Button, Group, TextInput } from '@mantine/core';
import { useState, type SyntheticEvent } from 'react';
import { useLocation } from 'wouter';
import { text } from '../../text';

/** From the mark that is written on a tub to its lot. */
export function GoToMark() {
  const [, go] = useLocation();
  const [mark, setMark] = useState('');
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    if (mark.trim() !== '') go(`/lots/${encodeURIComponent(mark.trim())}`);
  };
  return (
    <form onSubmit={submit} className="no-print">
      <Group gap="xs" align="flex-end" wrap="nowrap">
        <TextInput
          label={text.seed.mark}
          placeholder="K7M-R486"
          autoCapitalize="characters"
          value={mark}
          onChange={(event) => setMark(event.currentTarget.value)}
        />
        <Button type="submit" variant="default">
          {text.seed.open}
        </Button>
      </Group>
    </form>
  );
}
