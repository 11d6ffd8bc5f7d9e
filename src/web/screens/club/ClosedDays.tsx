import { Button, Group, TextInput } from '@mantine/core';
import { useMutation, useQuery } from '@tanstack/react-query';
import { useState, type SyntheticEvent } from 'react';
import { answer, api, everyItem, ifMatch, pageFrom } from '../../api/client';
import { useClub } from '../../api/club';
import { queries } from '../../api/queries';
import type { components } from '../../api/schema';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import { Loaded } from '../../ui/Loaded';
import { Sheet } from '../../ui/Sheet';

const words = text.club;

type ClosedDay = components['schemas']['ClosedDayResponse'];

/** Days on which nobody comes in. */
export function ClosedDays() {
  const { clubId, role } = useClub();
  const closed = useQuery({
    queryKey: ['closed-days', clubId],
    queryFn: () =>
      everyItem((cursor) =>
        api.GET('/api/v1/clubs/{clubId}/closed-days', {
          params: { path: { clubId }, query: pageFrom(cursor) },
        }),
      ),
  });
  return (
    <Sheet title={words.closedDays}>
      <Loaded query={closed}>
        {(items) => (
          <ul className="rows">
            {items.map((one) => (
              <li key={one.id}>
                <Row closed={one} />
              </li>
            ))}
          </ul>
        )}
      </Loaded>
      {role === 'steward' && <NewClosedDay />}
    </Sheet>
  );
}

function Row({ closed: { id, day, reason } }: { closed: ClosedDay }) {
  const { clubId, role } = useClub();
  const path = { clubId, id };
  const reopen = useMutation({
    mutationFn: async () => {
      const header = await ifMatch(
        api.GET('/api/v1/clubs/{clubId}/closed-days/{id}', { params: { path } }),
      );
      return answer(
        api.DELETE('/api/v1/clubs/{clubId}/closed-days/{id}', { params: { path, header } }),
      );
    },
    onSuccess: () => queries.invalidateQueries({ queryKey: ['closed-days'] }),
  });
  return (
    <>
      <div className="row">
        <span>
          <span className="numbers">{day}</span>
          <span className="soft">{reason}</span>
        </span>
        {role === 'steward' && (
          <Button
            variant="default"
            aria-label={words.reopenDay(day)}
            loading={reopen.isPending}
            onClick={() => reopen.mutate()}
          >
            {words.reopen}
          </Button>
        )}
      </div>
      {reopen.isError && <Failure error={reopen.error} />}
    </>
  );
}

function NewClosedDay() {
  const { clubId } = useClub();
  const [day, setDay] = useState('');
  const [reason, setReason] = useState('');
  const add = useMutation({
    mutationFn: () =>
      answer(
        api.POST('/api/v1/clubs/{clubId}/closed-days', {
          params: { path: { clubId } },
          body: { day, reason },
        }),
      ),
    onSuccess: async () => {
      setDay('');
      setReason('');
      await queries.invalidateQueries({ queryKey: ['closed-days'] });
    },
  });
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    add.mutate();
  };
  return (
    <form onSubmit={submit}>
      <Group align="flex-end">
        <TextInput
          type="date"
          label={words.closedDay}
          required
          value={day}
          onChange={(event) => setDay(event.currentTarget.value)}
        />
        <TextInput
          label={words.closedWhy}
          required
          value={reason}
          onChange={(event) => setReason(event.currentTarget.value)}
        />
        <Button type="submit" loading={add.isPending}>
          {words.add}
        </Button>
      </Group>
      {add.isError && <Failure error={add.error} />}
    </form>
  );
}
