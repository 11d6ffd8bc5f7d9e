import { Button, Group, SegmentedControl } from '@mantine/core';
import { useMemo, useState, useTransition } from 'react';
import { Link } from 'wouter';
import { useClub } from '../../api/club';
import { text } from '../../text';
import { Empty } from '../../ui/Empty';
import { Loaded } from '../../ui/Loaded';
import { Screen } from '../../ui/Screen';
import { useTimes } from '../../ui/times';
import { useStations } from '../club/club-queries';
import { BookForm, type BookingIdea } from './BookForm';
import { BookingList } from './BookingList';
import { BookingPanel } from './BookingPanel';
import { dayStarts } from './days';
import { KeptForYou } from './KeptForYou';
import { Legend } from './Legend';
import { NoShowsSheet } from './NoShowsSheet';
import { OverstaysSheet } from './OverstaysSheet';
import { useBookings, useFirstBookings, useStationRules, type Booking } from './room-queries';
import { noRules, StationDrawings } from './StationDrawings';
import { WaitingSheet } from './WaitingSheet';

const words = text.room;
const dayMs = 86_400_000;

type Span = '14' | '7' | '1';

/** Stations, places and time: what is free, what is mine, and everybody else's. */
export function RoomScreen() {
  const { timeZone } = useClub();
  const times = useTimes();
  const [span, setSpan] = useState<Span>('14');
  const [at, setAt] = useState(() => new Date());
  const [chosen, setChosen] = useState<Booking | null>(null);
  /** What the form for bookings begins with; undefined: it is not open. */
  const [idea, setIdea] = useState<BookingIdea | null | undefined>(undefined);
  const [isOpening, startOpening] = useTransition();
  const stations = useStations();
  // The drawings of a full room are large: they are drawn anew only when what they show is other.
  const days = useMemo(() => dayStarts(at, Number(span), timeZone), [at, span, timeZone]);
  const from = days[0] ?? at;
  const to = days.at(-1) ?? at;
  const bookings = useBookings(from, to);
  const firstBookings = useFirstBookings(from, to);
  const part = bookings.data === undefined ? firstBookings.data : undefined;
  const knownUntil = part?.at(-1)?.startsAt ?? null;
  const rules = useStationRules(
    (stations.data ?? []).map(({ id }) => id),
    from,
  );
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
        <Button
          variant="default"
          loading={isOpening}
          onClick={() => startOpening(() => setIdea(idea === undefined ? null : undefined))}
        >
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
      {chosen !== null && (
        <BookingPanel key={chosen.id} booking={chosen} onDone={() => setChosen(null)} />
      )}
      <Loaded query={stations}>
        {(found) =>
          found.length === 0 ? (
            <Empty>{words.none}</Empty>
          ) : (
            <Loaded query={part === undefined ? bookings : firstBookings}>
              {(booked) => (
                <>
                  <StationDrawings
                    stations={found}
                    days={days}
                    bookings={booked}
                    knownUntil={knownUntil}
                    rules={rules.data ?? noRules}
                    onChoose={setChosen}
                  />
                  <Legend />
                  <WaitingSheet />
                  {part === undefined && <FoldedList bookings={booked} onChoose={setChosen} />}
                </>
              )}
            </Loaded>
          )
        }
      </Loaded>
      <Link href="/club/stations" className="way-in no-print">
        {text.club.parts.stations}
      </Link>
    </Screen>
  );
}

/** The list is made when somebody opens it. */
function FoldedList({
  bookings,
  onChoose,
}: {
  bookings: Booking[];
  onChoose: (booking: Booking) => void;
}) {
  const [isOpen, setOpen] = useState(false);
  return (
    <details className="sheet" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{words.list}</summary>
      {isOpen && <BookingList bookings={bookings} onChoose={onChoose} />}
    </details>
  );
}
