import { Button, Group, NativeSelect, NumberInput, Stack, Text } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState, type SyntheticEvent } from 'react';
import { answer, api, Refused } from '../../api/client';
import { useClub } from '../../api/club';
import { readAnew } from '../../api/queries';
import { text } from '../../text';
import { Chips } from '../../ui/Chips';
import { Failure } from '../../ui/Failure';
import { Loaded } from '../../ui/Loaded';
import { Sheet } from '../../ui/Sheet';
import { TemperatureField } from '../../ui/TemperatureField';
import { useTimes } from '../../ui/times';
import { useUnitWords } from '../../ui/units';
import { WhenField } from '../../ui/WhenField';
import { useStations, type Duty, type Station } from '../club/club-queries';

const words = text.room;
const hourMs = 3_600_000;

/** Books places of one station; when they are taken, offers the times that would do. */
export function BookForm({ onDone }: { onDone: () => void }) {
  const stations = useStations();
  return (
    <Sheet title={words.book}>
      <Loaded query={stations}>
        {(items) =>
          items[0] === undefined ? (
            <Text>{words.none}</Text>
          ) : (
            <Form stations={items} first={items[0]} onDone={onDone} />
          )
        }
      </Loaded>
    </Sheet>
  );
}

function nextHour(hours: number): string {
  return new Date((Math.ceil(Date.now() / hourMs) + hours) * hourMs).toISOString();
}

function Form({
  stations,
  first,
  onDone,
}: {
  stations: Station[];
  first: Station;
  onDone: () => void;
}) {
  const { clubId } = useClub();
  const times = useTimes();
  const { temperatureUnit } = useUnitWords();
  const [station, setStation] = useState(first);
  const [duty, setDuty] = useState<Duty>(first.duties[0]?.duty ?? 'warm');
  const served = station.duties.find((one) => one.duty === duty);
  const [minC, setMin] = useState<number | null>(served?.minC ?? null);
  const [maxC, setMax] = useState<number | null>(served?.maxC ?? null);
  const [startsAt, setStart] = useState(nextHour(0));
  const [endsAt, setEnd] = useState(nextHour(48));
  const [places, setPlaces] = useState<number | null>(1);
  const choose = (next: Station, nextDuty: Duty | undefined) => {
    const band = next.duties.find((one) => one.duty === nextDuty) ?? next.duties[0];
    setStation(next);
    setDuty(band?.duty ?? 'warm');
    setMin(band?.minC ?? null);
    setMax(band?.maxC ?? null);
  };
  const wish = {
    stationId: station.id,
    duty,
    minC: minC ?? 0,
    maxC: maxC ?? 0,
    places: places ?? 0,
  };
  const minutes = Math.round((Date.parse(endsAt) - Date.parse(startsAt)) / 60_000);
  const book = useMutation({
    mutationFn: () =>
      answer(
        api.POST('/api/v1/clubs/{clubId}/bookings', {
          params: { path: { clubId } },
          body: { ...wish, startsAt, endsAt },
        }),
      ),
    onSuccess: async () => {
      await readAnew();
      onDone();
    },
  });
  const wait = useMutation({
    mutationFn: () =>
      answer(
        api.POST('/api/v1/clubs/{clubId}/waiting-list', {
          params: { path: { clubId } },
          body: { ...wish, minutes, notBefore: startsAt, notAfter: endsAt },
        }),
      ),
    onSuccess: readAnew,
  });
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    book.mutate();
  };
  const freeTimes = freeTimesOf(book.error);
  return (
    <form onSubmit={submit}>
      <Stack>
        <NativeSelect
          label={words.station}
          value={station.id}
          data={stations.map(({ id, name }) => ({ value: id, label: name }))}
          onChange={(event) => {
            const next = stations.find(({ id }) => id === event.currentTarget.value);
            if (next !== undefined) choose(next, undefined);
          }}
        />
        {station.duties.length > 1 && (
          <Chips
            label={words.duty}
            of={
              Object.fromEntries(
                station.duties.map((one) => [one.duty, words.duties[one.duty]]),
              ) as Record<Duty, string>
            }
            value={duty}
            onChange={(next) => choose(station, next)}
          />
        )}
        <Group grow align="flex-end">
          <TemperatureField label={words.minC(temperatureUnit)} valueC={minC} onChange={setMin} />
          <TemperatureField label={words.maxC(temperatureUnit)} valueC={maxC} onChange={setMax} />
          <NumberInput
            label={words.howMany}
            min={1}
            allowDecimal={false}
            hideControls
            value={places ?? ''}
            onChange={(typed) => setPlaces(typed === '' ? null : Number(typed))}
          />
        </Group>
        <WhenField label={words.starts} value={startsAt} onChange={setStart} />
        <WhenField label={words.ends} value={endsAt} onChange={setEnd} />
        {book.isError && <Failure error={book.error} />}
        {freeTimes.length > 0 && (
          <>
            <Text>{words.instead}</Text>
            <Group>
              {freeTimes.map(({ firstStart }) => (
                <Button
                  key={firstStart}
                  variant="default"
                  onClick={() => {
                    setStart(firstStart);
                    setEnd(new Date(Date.parse(firstStart) + minutes * 60_000).toISOString());
                    book.reset();
                  }}
                >
                  {words.startAt(times.dayAndTime(firstStart))}
                </Button>
              ))}
              <Button variant="subtle" loading={wait.isPending} onClick={() => wait.mutate()}>
                {words.waitInstead}
              </Button>
            </Group>
          </>
        )}
        {wait.isError && <Failure error={wait.error} />}
        {wait.isSuccess && <Text role="status">{words.waiting}</Text>}
        <Button type="submit" w="fit-content" loading={book.isPending}>
          {words.bookIt}
        </Button>
      </Stack>
    </form>
  );
}

function freeTimesOf(error: unknown): { firstStart: string }[] {
  if (!(error instanceof Refused)) return [];
  const { freeTimes } = error.problem;
  return Array.isArray(freeTimes) ? (freeTimes as { firstStart: string }[]) : [];
}
