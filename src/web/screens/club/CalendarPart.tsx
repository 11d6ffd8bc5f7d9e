import { Anchor, Button, Stack, Text, TextInput } from '@mantine/core';
import { useMutation, useQuery } from '@tanstack/react-query';
import { useState, type SyntheticEvent } from 'react';
import { answer, api, everyItem, ifMatch, pageFrom } from '../../api/client';
import { useClub } from '../../api/club';
import { queries } from '../../api/queries';
import type { components } from '../../api/schema';
import { text } from '../../text';
import { Chips } from '../../ui/Chips';
import { Copyable } from '../../ui/Copyable';
import { Failure } from '../../ui/Failure';
import { Loaded } from '../../ui/Loaded';
import { Sheet } from '../../ui/Sheet';
import { useTimes } from '../../ui/times';

const words = text.calendar;

type Feed = components['schemas']['CalendarFeedResponse'];

/** Addresses under which calendar programs read what is booked. */
export function CalendarPart() {
  const { clubId } = useClub();
  const feeds = useQuery({
    queryKey: ['calendar-feeds', clubId],
    queryFn: () =>
      everyItem((cursor) =>
        api.GET('/api/v1/clubs/{clubId}/calendar-feeds', {
          params: { path: { clubId }, query: pageFrom(cursor) },
        }),
      ),
  });
  return (
    <>
      <NewFeed />
      <Loaded query={feeds}>
        {(items) => (
          <Sheet title={words.feeds}>
            {items.length === 0 && <Text className="soft">{words.none}</Text>}
            <ul className="rows">
              {items.map((feed) => (
                <li key={feed.id}>
                  <Row feed={feed} />
                </li>
              ))}
            </ul>
          </Sheet>
        )}
      </Loaded>
    </>
  );
}

type Whose = keyof typeof words.choices;

function NewFeed() {
  const { clubId } = useClub();
  const [name, setName] = useState('');
  const [whose, setWhose] = useState<Whose>('mine');
  const make = useMutation({
    mutationFn: () =>
      answer(
        api.POST('/api/v1/clubs/{clubId}/calendar-feeds', {
          params: { path: { clubId } },
          body: { name },
        }),
      ),
    onSuccess: () => queries.invalidateQueries({ queryKey: ['calendar-feeds'] }),
  });
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    make.mutate();
  };
  const address = make.data && addressOf(make.data.path, whose);
  return (
    <Sheet title={text.club.parts.calendar}>
      <form onSubmit={submit}>
        <Stack>
          <Text>{words.intro}</Text>
          <TextInput
            label={words.name}
            placeholder={words.namePlaceholder}
            required
            value={name}
            onChange={(event) => setName(event.currentTarget.value)}
          />
          <Chips label={words.whose} of={words.choices} value={whose} onChange={setWhose} />
          {make.isError && <Failure error={make.error} />}
          {address === undefined ? (
            <Button type="submit" w="fit-content" loading={make.isPending}>
              {words.make}
            </Button>
          ) : (
            <Stack role="status">
              <Text fw={600}>{words.once}</Text>
              <Copyable value={address} />
              <Text>{words.how}</Text>
              <Anchor href={address.replace(/^https?:/, 'webcal:')}>{words.open}</Anchor>
            </Stack>
          )}
          <Anchor href={`/api/v1/clubs/${clubId}/calendar.ics?whose=${whose}`}>
            {words.download}
          </Anchor>
        </Stack>
      </form>
    </Sheet>
  );
}

/** The whole address of a feed; its secret stands in the path that the service gave. */
function addressOf(path: string, whose: Whose): string {
  const address = new URL(path, location.origin);
  if (whose === 'all') address.searchParams.set('whose', 'all');
  return address.toString();
}

function Row({ feed }: { feed: Feed }) {
  const { clubId } = useClub();
  const times = useTimes();
  const path = { clubId, id: feed.id };
  const withdraw = useMutation({
    mutationFn: async () => {
      const header = await ifMatch(
        api.GET('/api/v1/clubs/{clubId}/calendar-feeds/{id}', { params: { path } }),
      );
      return answer(
        api.DELETE('/api/v1/clubs/{clubId}/calendar-feeds/{id}', { params: { path, header } }),
      );
    },
    onSuccess: () => queries.invalidateQueries({ queryKey: ['calendar-feeds'] }),
  });
  return (
    <>
      <div className="row">
        <span>
          <strong>{feed.name}</strong>
          <span className="soft">
            {words.made(times.date(feed.createdAt))} ·{' '}
            {feed.lastUsedOn === null ? words.neverUsed : words.lastUsed(feed.lastUsedOn)}
          </span>
        </span>
        <Button
          variant="default"
          aria-label={words.revokeOf(feed.name)}
          loading={withdraw.isPending}
          onClick={() => withdraw.mutate()}
        >
          {words.revoke}
        </Button>
      </div>
      {withdraw.isError && <Failure error={withdraw.error} />}
    </>
  );
}
