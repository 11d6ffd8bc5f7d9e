import { Button, Group, Stack, Text, TextInput } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState, type SyntheticEvent } from 'react';
import { answer, api } from '../../api/client';
import { useClub } from '../../api/club';
import { queries } from '../../api/queries';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import { hoursOf, spansOf, type Hours, type Span } from './week-spans';

const words = text.club;

/** The week as it stands, to read. */
export function WeekTable({ hours }: { hours: Hours[] }) {
  if (hours.length === 0) return <Text>{words.alwaysOpenNow}</Text>;
  return (
    <table className="plain">
      <tbody>
        {spansOf(hours).map((spans, index) => (
          <tr key={words.weekdays[index]}>
            <th scope="row">{words.weekdays[index]}</th>
            <td>
              {spans.length === 0
                ? words.shut
                : spans.map(({ opens, closes }) => words.span(opens, closes)).join(', ')}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** The whole week to change: each day with as many spans as it has. */
export function WeekForm({
  hours,
  etag,
  onSaved,
}: {
  hours: Hours[];
  etag: string;
  onSaved: () => void;
}) {
  const { clubId } = useClub();
  const [days, setDays] = useState(() => spansOf(hours));
  const save = useMutation({
    mutationFn: () =>
      answer(
        api.PUT('/api/v1/clubs/{clubId}/opening-hours', {
          params: { path: { clubId }, header: { 'If-Match': etag } },
          body: { hours: hoursOf(days) },
        }),
      ),
    onSuccess: async () => {
      await queries.invalidateQueries({ queryKey: ['opening-hours'] });
      onSaved();
    },
  });
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    save.mutate();
  };
  const put = (index: number, spans: Span[]) =>
    setDays(days.map((day, at) => (at === index ? spans : day)));
  return (
    <form onSubmit={submit}>
      <Stack gap="xs">
        <Text className="soft">{words.alwaysOpen}</Text>
        <div className="week">
          {days.map((spans, index) => (
            <Day
              key={words.weekdays[index]}
              name={words.weekdays[index] ?? ''}
              spans={spans}
              isShut={spans.length === 0 && days.some((day) => day.length > 0)}
              onChange={(next) => put(index, next)}
            />
          ))}
        </div>
        {save.isError && <Failure error={save.error} />}
        <Button type="submit" w="fit-content" loading={save.isPending}>
          {text.frame.save}
        </Button>
      </Stack>
    </form>
  );
}

function Day({
  name,
  spans,
  isShut,
  onChange,
}: {
  name: string;
  spans: Span[];
  /** Whether nobody comes in on that day; a week without any hours is open throughout. */
  isShut: boolean;
  onChange: (spans: Span[]) => void;
}) {
  const put = (index: number, change: Partial<Span>) =>
    onChange(spans.map((span, at) => (at === index ? { ...span, ...change } : span)));
  return (
    <fieldset className="bare week-day">
      <legend>{name}</legend>
      <div className="week-day-spans">
        {isShut && <span className="soft">{words.shut}</span>}
        {spans.map((span, index) => (
          <Group key={index} gap="xs">
            <TextInput
              type="time"
              required
              aria-label={words.spanOpens(name, index + 1)}
              value={span.opens}
              onChange={(event) => put(index, { opens: event.currentTarget.value })}
            />
            <TextInput
              type="time"
              required
              aria-label={words.spanCloses(name, index + 1)}
              value={span.closes}
              onChange={(event) => put(index, { closes: event.currentTarget.value })}
            />
            <Button
              variant="subtle"
              aria-label={words.spanRemove(name, index + 1)}
              onClick={() => onChange(spans.filter((_, at) => at !== index))}
            >
              ✕
            </Button>
          </Group>
        ))}
        <Button
          variant="default"
          aria-label={words.spanAdd(name, spans.length === 0 ? words.openThen : words.openAgain)}
          onClick={() => onChange([...spans, { opens: '', closes: '' }])}
        >
          {spans.length === 0 ? words.openThen : words.openAgain}
        </Button>
      </div>
    </fieldset>
  );
}
