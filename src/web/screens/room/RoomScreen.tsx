import { Button, Group, SegmentedControl, Stack } from '@mantine/core';
import { useMemo, useState } from 'react';
import { Link } from 'wouter';
import { useClub } from '../../api/club';
import { text } from '../../text';
import { Empty } from '../../ui/Empty';
import { Folded } from '../../ui/Folded';
import { Loaded } from '../../ui/Loaded';
import { Screen } from '../../ui/Screen';
import { useTimes } from '../../ui/times';
import { BookForm, type BookingIdea } from './BookForm';
import { BookingList } from './BookingList';
import { BookingPanel } from './BookingPanel';
import { dayStarts, daysAtFirst } from './days';
import { KeptForYou } from './KeptForYou';
import { Legend } from './Legend';
import { NoShowsSheet } from './NoShowsSheet';
import { OverstaysSheet } from './OverstaysSheet';
import { useDiary } from './room-queries';
import { StationDrawing } from './StationDrawing';
import { WaitingSheet } from './WaitingSheet';

const words = text.room;
const dayMs = 86_400_000;

type Span = '14' | '7' | '1';

/** Stations, places and time: what is free, what is mine, and everybody else's. */
export function RoomScreen() {
  const { timeZone, role } = useClub();
  const times = useTimes();
  const [span, setSpan] = useState<Span>(`${daysAtFirst}`);
  const [at, setAt] = useState(() => new Date());
  /** The id of a booking. */
  const [chosen, setChosen] = useState<string | null>(null);
  /** What the form for bookings begins with; undefined: it is not open. */
  const [idea, setIdea] = useState<BookingIdea | null | undefined>(undefined);
  const days = useMemo(() => dayStarts(at, Number(span), timeZone), [at, span, timeZone]);
  const from = days[0] ?? at;
  const to = days.at(-1) ?? at;
  const diary = useDiary(days);
  const move = (count: number) => setAt(new Date(at.getTime() + count * Number(span) * dayMs));
  const bookElsewhere = (wanted: BookingIdea) => {
    setIdea(wanted);
    window.scrollTo({ top: 0 });
  };
  return (
    <Screen title={words.title}>
      <KeptForYou />
      <Group className="no-print">
        <Button component={Link} href="/room/plan">
          {words.plan}
        </Button>
        <Button variant="default" onClick={() => setIdea(idea === undefined ? null : undefined)}>
          {words.book}
        </Button>
      </Group>
      {idea !== undefined && (
        <BookForm key={idea?.startsAt ?? ''} idea={idea} onDone={() => setIdea(undefined)} />
      )}
      <OverstaysSheet onBookElsewhere={bookElsewhere} />
      <NoShowsSheet />
      <Group className="no-print" gap="xs">
        <SegmentedControl
          aria-label={words.span}
          value={span}
          onChange={setSpan}
          data={[
            { value: '14', label: words.twoWeeks },
            { value: '7', label: words.oneWeek },
            { value: '1', label: words.oneDay },
          ]}
        />
        <Button variant="default" onClick={() => move(-1)}>
          {words.earlier}
        </Button>
        <Button variant="default" onClick={() => setAt(new Date())}>
          {words.toToday}
        </Button>
        <Button variant="default" onClick={() => move(1)}>
          {words.later}
        </Button>
      </Group>
      <p className="soft plain">
        {times.date(from)}
        {span !== '1' && ` – ${times.date(new Date(to.getTime() - 1))}`}
      </p>
      <Loaded query={diary}>
        {({ stations, open, toldUntil, days: drawnDays }) =>
          stations.length === 0 ? (
            <Empty
              action={
                role === 'steward' && (
                  <Button component={Link} href="/club/stations">
                    {words.setUp}
                  </Button>
                )
              }
            >
              {words.none}
            </Empty>
          ) : (
            <>
              {stations.map((station) => (
                <Stack
                  component="section"
                  key={station.id}
                  aria-busy={diary.isPlaceholderData && drawnDays !== days}
                >
                  <StationDrawing
                    station={station}
                    days={drawnDays}
                    open={open}
                    toldUntil={toldUntil}
                    onChoose={setChosen}
                  />
                  {chosen !== null && station.bookings.some(({ id }) => id === chosen) && (
                    <BookingPanel key={chosen} id={chosen} onDone={() => setChosen(null)} />
                  )}
                </Stack>
              ))}
              <Legend />
              <WaitingSheet />
              <Folded summary={words.list}>
                {() => <BookingList stations={stations} onChoose={setChosen} />}
              </Folded>
            </>
          )
        }
      </Loaded>
      <Link href="/club/stations" className="way-in no-print">
        {text.club.parts.stations}
      </Link>
    </Screen>
  );
}
