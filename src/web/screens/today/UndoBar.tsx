import { Button, Group, Text } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState } from 'react';
import { queries } from '../../api/queries';
import { useSession } from '../../api/session';
import { sendOrKeep } from '../../offline/outbox';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import { useTimes } from '../../ui/times';
import type { Undo } from './today-queries';

const words = text.today;
const shownAtFirst = 2;

/** What was done just now, and can be taken back for a while. */
export function UndoBar({ items }: { items: Undo[] }) {
  const [isAll, setAll] = useState(false);
  if (items.length === 0) return null;
  return (
    <section className="sheet" aria-label={words.undoTitle}>
      {(isAll ? items : items.slice(0, shownAtFirst)).map((item) => (
        <UndoRow key={item.request.path} item={item} />
      ))}
      {!isAll && items.length > shownAtFirst && (
        <Button variant="subtle" onClick={() => setAll(true)}>
          {text.frame.more}
        </Button>
      )}
    </section>
  );
}

function UndoRow({ item }: { item: Undo }) {
  const { data: person } = useSession();
  const times = useTimes();
  const [why, setWhy] = useState('');
  const needsWhy = item.request.fillIn.includes('#/because');
  const undo = useMutation({
    mutationFn: () =>
      sendOrKeep(
        person?.personId ?? '',
        item.request.path,
        needsWhy ? { ...item.request.body, because: why } : item.request.body,
        item.sentence,
      ),
    onSuccess: () => queries.invalidateQueries(),
  });
  return (
    <>
      <Group justify="space-between">
        <Text>
          {item.sentence} <span className="soft">{words.by(times.time(item.until))}</span>
        </Text>
        {needsWhy && (
          <input
            className="why"
            aria-label={text.batches.strikeOutWhy}
            placeholder={text.batches.strikeOutWhy}
            value={why}
            onChange={(event) => setWhy(event.currentTarget.value)}
          />
        )}
        <Button
          variant="default"
          loading={undo.isPending}
          disabled={needsWhy && why.trim() === ''}
          onClick={() => undo.mutate()}
        >
          {words.undo}
        </Button>
      </Group>
      {undo.isError && <Failure error={undo.error} />}
    </>
  );
}
