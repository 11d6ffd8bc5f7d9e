import { Button, Group, Stack } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState, type SyntheticEvent } from 'react';
import { answer, answerWithTag, api } from '../../api/client';
import { useClub } from '../../api/club';
import { readAnew } from '../../api/queries';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import { ClosureFields, type ClosureValues } from './ClosureFields';
import { InTheWay } from './InTheWay';
import type { Closure } from './station-queries';

/** Another time or reason for a closure. Over bookings it is not changed: those are moved first. */
export function ChangeClosure({ closure, onDone }: { closure: Closure; onDone: () => void }) {
  const { clubId } = useClub();
  const [values, setValues] = useState<ClosureValues>(closure);
  const path = { clubId, stationId: closure.stationId, id: closure.id };
  const change = useMutation({
    mutationFn: async () => {
      const { etag } = await answerWithTag(
        api.GET('/api/v1/clubs/{clubId}/stations/{stationId}/closures/{id}', { params: { path } }),
      );
      const { startsAt, endsAt, reason } = values;
      return answer(
        api.PATCH('/api/v1/clubs/{clubId}/stations/{stationId}/closures/{id}', {
          params: { path, header: { 'If-Match': etag } },
          body: { startsAt, endsAt, reason },
        }),
      );
    },
    onSuccess: async () => {
      await readAnew();
      onDone();
    },
  });
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    change.mutate();
  };
  return (
    <form onSubmit={submit} className="rows-part">
      <Stack>
        <ClosureFields value={values} onChange={setValues} />
        {change.isError && <Failure error={change.error} />}
        <InTheWay error={change.error} />
        <Group>
          <Button type="submit" loading={change.isPending}>
            {text.frame.save}
          </Button>
          <Button variant="subtle" onClick={onDone}>
            {text.frame.cancel}
          </Button>
        </Group>
      </Stack>
    </form>
  );
}
