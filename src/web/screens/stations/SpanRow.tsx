import { Button, Group } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState, type ReactNode } from 'react';
import { useClub } from '../../api/club';
import { readAnew } from '../../api/queries';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import { useTimes } from '../../ui/times';

const words = text.stations;

/** What holds at a station from one time until another; a steward changes it or takes it away. */
export function SpanRow({
  title,
  span,
  note,
  remove,
  changeForm,
}: {
  title: string;
  span: { startsAt: string; endsAt: string };
  note?: string;
  remove: () => Promise<unknown>;
  changeForm: (onDone: () => void) => ReactNode;
}) {
  const { role } = useClub();
  const times = useTimes();
  const [isChanging, setChanging] = useState(false);
  const removal = useMutation({ mutationFn: remove, onSuccess: readAnew });
  if (isChanging) return changeForm(() => setChanging(false));
  return (
    <>
      <div className="row wraps">
        <span>
          <strong>{title}</strong>
          <span className="soft">
            {times.dateAndTime(span.startsAt)} – {times.dateAndTime(span.endsAt)}
          </span>
          {note !== undefined && <span>{note}</span>}
        </span>
        {role === 'steward' && (
          <Group gap="xs">
            <Button variant="default" onClick={() => setChanging(true)}>
              {words.changeIt}
            </Button>
            <Button variant="default" loading={removal.isPending} onClick={() => removal.mutate()}>
              {words.removeIt}
            </Button>
          </Group>
        )}
      </div>
      {removal.isError && <Failure error={removal.error} />}
    </>
  );
}
