import { Button, Group, NativeSelect, NumberInput, Stack, Text } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useEffect, useRef, useState, type SyntheticEvent } from 'react';
import { answer, api, Refused } from '../../api/client';
import { useClub } from '../../api/club';
import { readAnew } from '../../api/queries';
import { text } from '../../text';
import { Chips } from '../../ui/Chips';
import { Failure } from '../../ui/Failure';
import { focusOn } from '../../ui/keep-focus';
import { Loaded } from '../../ui/Loaded';
import { Sheet } from '../../ui/Sheet';
import { TemperatureField } from '../../ui/TemperatureField';
import { useUnitWords } from '../../ui/units';
import { WhenField } from '../../ui/WhenField';
import { useStations, type Duty, type Station } from '../club/club-queries';
import { FreeTimes } from './FreeTimes';
import { SetRuleAside, type RulesSetAside } from './SetRuleAside';
import { WaitForm, type PlacesWish } from './WaitForm';
import { lookThroughMs } from './look-through';

const words = text.room;
const hourMs = 3_600_000;

/** What the form begins with, where somebody comes to it from something that needs other places. */
export interface BookingIdea extends PlacesWish {
  startsAt: string;
  endsAt: string;
  /** For whom; a steward may book for others. */
  memberId: string;
  batchId: string | null;
}

/** Books places of one station; when they are taken, offers the times that would do, and the waiting list. */
export function BookForm({ idea, onDone }: { idea: BookingIdea | null; onDone: () => void }) {
  const stations = useStations();
  const whole = useRef<HTMLDivElement>(null);
  useEffect(() => {
    // Whoever comes from elsewhere on the screen goes on here.
    if (idea !== null) focusOn(whole.current?.querySelector('h2') ?? undefined);
  }, [idea]);
  return (
    <div ref={whole}>
      <Sheet title={words.book}>
        <Loaded query={stations}>
          {(items) => {
            const first = items.find(({ id }) => id === idea?.stationId) ?? items[0];
            if (first === undefined) return <Text>{words.none}</Text>;
            return <Form stations={items} first={first} idea={idea} onDone={onDone} />;
          }}
        </Loaded>
      </Sheet>
    </div>
  );
}

/** A full hour that is still ahead when somebody has looked through the form, and hours after it. */
function nextHour(hours: number): string {
  const soon = Date.now() + lookThroughMs;
  return new Date((Math.ceil(soon / hourMs) + hours) * hourMs).toISOString();
}

/** What waiting helps against. */
const waitable = new Set([
  'place-taken',
  'other-duty',
  'temperature-clash',
  'station-closed',
  'duty-window',
]);

function Form({
  stations,
  first,
  idea,
  onDone,
}: {
  stations: Station[];
  first: Station;
  idea: BookingIdea | null;
  onDone: () => void;
}) {
  const { clubId } = useClub();
  const { temperatureUnit } = useUnitWords();
  const [station, setStation] = useState(first);
  const [duty, setDuty] = useState<Duty>(idea?.duty ?? first.duties[0]?.duty ?? 'warm');
  const served = station.duties.find((one) => one.duty === duty);
  const [minC, setMin] = useState<number | null>(idea?.minC ?? served?.minC ?? null);
  const [maxC, setMax] = useState<number | null>(idea?.maxC ?? served?.maxC ?? null);
  const [startsAt, setStart] = useState(idea?.startsAt ?? nextHour(0));
  const [endsAt, setEnd] = useState(idea?.endsAt ?? nextHour(48));
  const [places, setPlaces] = useState<number | null>(idea?.places ?? 1);
  const [isWaiting, setWaiting] = useState(false);
  const [setAside, setSetAside] = useState<RulesSetAside>({});
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
    mutationFn: (span: { startsAt: string; endsAt: string }) =>
      answer(
        api.POST('/api/v1/clubs/{clubId}/bookings', {
          params: { path: { clubId } },
          body: {
            ...wish,
            ...span,
            ...setAside,
            ...(idea !== null && { memberId: idea.memberId }),
            ...(idea?.batchId != null && { batchId: idea.batchId }),
          },
        }),
      ),
    onSuccess: async () => {
      await readAnew();
      onDone();
    },
  });
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    book.mutate({ startsAt, endsAt });
  };
  const chooseStart = (firstStart: string) => {
    const end = new Date(Date.parse(firstStart) + minutes * 60_000).toISOString();
    setStart(firstStart);
    setEnd(end);
    setWaiting(false);
    return { startsAt: firstStart, endsAt: end };
  };
  const code = book.error instanceof Refused ? book.error.code : '';
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
        <div className="pair">
          <WhenField label={words.starts} value={startsAt} onChange={setStart} />
          <WhenField label={words.ends} value={endsAt} onChange={setEnd} />
        </div>
        {book.isError && !isWaiting && (
          <>
            <Failure error={book.error} />
            <FreeTimes
              error={book.error}
              wordsOf={words.bookAt}
              onChoose={(firstStart) => book.mutate(chooseStart(firstStart))}
            />
          </>
        )}
        <SetRuleAside code={code} value={setAside} onChange={setSetAside} />
        {isWaiting ? (
          <>
            <WaitForm
              wish={wish}
              startsAt={startsAt}
              endsAt={endsAt}
              onChooseStart={(firstStart) => {
                chooseStart(firstStart);
                book.reset();
              }}
            />
            <Button variant="subtle" w="fit-content" onClick={onDone}>
              {text.frame.close}
            </Button>
          </>
        ) : (
          <Group>
            <Button type="submit" loading={book.isPending}>
              {words.bookIt}
            </Button>
            {waitable.has(code) && idea === null && (
              <Button variant="default" onClick={() => setWaiting(true)}>
                {words.waitInstead}
              </Button>
            )}
            <Button variant="subtle" onClick={onDone}>
              {text.frame.close}
            </Button>
          </Group>
        )}
      </Stack>
    </form>
  );
}
