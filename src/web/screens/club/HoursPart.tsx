import { Button, Group, Stack, Text, TextInput } from '@mantine/core';
import { useMutation, useQuery } from '@tanstack/react-query';
import { useState, type SyntheticEvent } from 'react';
import { answer, answerWithTag, api, everyItem, pageFrom } from '../../api/client';
import { useClub } from '../../api/club';
import { queries } from '../../api/queries';
import type { components } from '../../api/schema';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import { Loaded } from '../../ui/Loaded';
import { Sheet } from '../../ui/Sheet';

const words = text.club;

type Hours = components['schemas']['DayHours'];

/** When the room is open, by the clock of the club; and the days on which nobody comes in. */
export function HoursPart() {
  const { clubId } = useClub();
  const hours = useQuery({
    queryKey: ['opening-hours', clubId],
    queryFn: () =>
      answerWithTag(
        api.GET('/api/v1/clubs/{clubId}/opening-hours', { params: { path: { clubId } } }),
      ),
  });
  return (
    <>
      <Sheet title={words.parts.hours}>
        <Loaded query={hours}>
          {({ data, etag }) => <Week key={etag} hours={data.hours} etag={etag} />}
        </Loaded>
      </Sheet>
      <ClosedDays />
    </>
  );
}

function Week({ hours, etag }: { hours: Hours[]; etag: string }) {
  const { clubId, role } = useClub();
  const [days, setDays] = useState(() => weekdays.map((weekday) => spanOf(hours, weekday)));
  const save = useMutation({
    mutationFn: () =>
      answer(
        api.PUT('/api/v1/clubs/{clubId}/opening-hours', {
          params: { path: { clubId }, header: { 'If-Match': etag } },
          body: {
            hours: weekdays.flatMap((weekday, index) => {
              const { opens = '', closes = '' } = days[index] ?? {};
              const was = spanOf(hours, weekday);
              // A day with a break keeps it, unless its times were changed here.
              if (opens === was.opens && closes === was.closes) {
                return hours.filter((one) => one.weekday === weekday);
              }
              if (opens === '' || closes === '') return [];
              return [
                { weekday, opensMinute: minutesOf(opens), closesMinute: minutesOf(closes) || 1440 },
              ];
            }),
          },
        }),
      ),
    onSuccess: () => queries.invalidateQueries({ queryKey: ['opening-hours'] }),
  });
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    save.mutate();
  };
  const put = (index: number, change: Partial<(typeof days)[number]>) =>
    setDays(days.map((day, at) => (at === index ? { ...day, ...change } : day)));
  return (
    <form onSubmit={submit}>
      <Stack gap="xs">
        <Text className="soft">{words.alwaysOpen}</Text>
        {days.map((day, index) => (
          <Group key={words.weekdays[index]} gap="xs">
            <Text w="100%">{words.weekdays[index]}</Text>
            <TextInput
              type="time"
              aria-label={`${words.weekdays[index] ?? ''}: ${words.opens}`}
              value={day.opens}
              readOnly={role !== 'steward'}
              onChange={(event) => put(index, { opens: event.currentTarget.value })}
            />
            <TextInput
              type="time"
              aria-label={`${words.weekdays[index] ?? ''}: ${words.closes}`}
              value={day.closes}
              readOnly={role !== 'steward'}
              onChange={(event) => put(index, { closes: event.currentTarget.value })}
            />
          </Group>
        ))}
        {save.isError && <Failure error={save.error} />}
        {role === 'steward' && (
          <Button type="submit" w="fit-content" loading={save.isPending}>
            {text.frame.save}
          </Button>
        )}
      </Stack>
    </form>
  );
}

const weekdays = [1, 2, 3, 4, 5, 6, 7];

/** The first span of a day, for two fields; a day with more of them is shown from its first opening to its last closing. */
function spanOf(hours: Hours[], weekday: number): { opens: string; closes: string } {
  const ofDay = hours.filter((one) => one.weekday === weekday);
  if (ofDay.length === 0) return { opens: '', closes: '' };
  return {
    opens: clockOf(Math.min(...ofDay.map(({ opensMinute }) => opensMinute))),
    closes: clockOf(Math.max(...ofDay.map(({ closesMinute }) => closesMinute)) % 1440),
  };
}

function clockOf(minutes: number): string {
  const two = (value: number) => String(value).padStart(2, '0');
  return `${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
}

function minutesOf(clock: string): number {
  const [hours = 0, minutes = 0] = clock.split(':').map(Number);
  return hours * 60 + minutes;
}

function ClosedDays() {
  const { clubId, role } = useClub();
  const [day, setDay] = useState('');
  const [reason, setReason] = useState('');
  const closed = useQuery({
    queryKey: ['closed-days', clubId],
    queryFn: () =>
      everyItem((cursor) =>
        api.GET('/api/v1/clubs/{clubId}/closed-days', {
          params: {
            path: { clubId },
            query: pageFrom(cursor),
          },
        }),
      ),
  });
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
    <Sheet title={words.closedDays}>
      <Loaded query={closed}>
        {(items) => (
          <ul className="rows">
            {items.map((one) => (
              <li key={one.id} className="row">
                <span className="numbers">{one.day}</span>
                <span className="soft">{one.reason}</span>
              </li>
            ))}
          </ul>
        )}
      </Loaded>
      {role === 'steward' && (
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
      )}
    </Sheet>
  );
}
