import { Button } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState } from 'react';
import { queries } from '../../api/queries';
import { useSendOrKeep } from '../../offline/outbox';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import { useTimes } from '../../ui/times';
import type { Undo } from './today-queries';

const words = text.today;

/** What was done just now, and can be taken back for a while: the latest at once, the rest folded away from what comes next. */
export function UndoBar({ items }: { items: Undo[] }) {
  const [latest, ...before] = items;
  if (latest === undefined) return null;
  return (
    <section className="sheet undo no-print" aria-label={words.undoTitle}>
      <UndoRow item={latest} />
      {before.length > 0 && (
        <details>
          <summary>{words.undoBefore(before.length)}</summary>
          {before.map((item) => (
            <UndoRow key={item.request.path} item={item} />
          ))}
        </details>
      )}
    </section>
  );
}

function UndoRow({ item }: { item: Undo }) {
  const sendOrKeep = useSendOrKeep();
  const times = useTimes();
  const needsWhy = item.request.fillIn.includes('#/because');
  const [why, setWhy] = useState<string | null>(null);
  const undo = useMutation({
    mutationFn: () =>
      sendOrKeep(
        item.request.path,
        needsWhy ? { ...item.request.body, because: why } : item.request.body,
        item.sentence,
      ),
    onSuccess: () => queries.invalidateQueries(),
  });
  return (
    <>
      <div className="undo-row">
        <span>
          {item.sentence} <span className="soft">{words.undoUntil(times.time(item.until))}</span>
        </span>
        {why !== null && (
          <input
            className="why"
            autoFocus
            aria-label={text.batches.strikeOutWhy}
            placeholder={text.batches.strikeOutWhy}
            value={why}
            onChange={(event) => setWhy(event.currentTarget.value)}
          />
        )}
        <Button
          variant="default"
          loading={undo.isPending}
          disabled={why?.trim() === ''}
          onClick={() => (needsWhy && why === null ? setWhy('') : undo.mutate())}
        >
          {words.undo}
        </Button>
      </div>
      {undo.isError && <Failure error={undo.error} />}
    </>
  );
}
