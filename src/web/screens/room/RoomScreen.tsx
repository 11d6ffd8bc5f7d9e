import { Button, Group, SegmentedControl } from '@mantine/core';
import { useState } from 'react';
import { Link } from 'wouter';
import { useClub } from '../../api/club';
import { text } from '../../text';
import { Empty } from '../../ui/Empty';
import { Loaded } from '../../ui/Loaded';
import { Screen } from '../../ui/Screen';
import { Sheet } from '../../ui/Sheet';
import { useTimes } from '../../ui/times';
import { useStations } from '../club/club-queries';
import { BookForm } from './BookForm';
import { BookingList } from './BookingList';
import { BookingPanel } from './BookingPanel';
import { dayStarts } from './days';
import { Legend } from './Legend';
import { useBookings, useStationRules, type Booking } from './room-queries';
import { StationDrawing } from './StationDrawing';

const words = text.room;
const dayMs = 86_400_000;

/** Stations, places and time: what is free, what is mine, and everybody else's. */
export function RoomScreen() {
  const { timeZone } = useClub();
  const times = useTimes();
  const [span, setSpan] = useState<'14' | '1'>('14');
  const [at, setAt] = useState(() => new Date());
  const [chosen, setChosen] = useState<Booking | null>(null);
  const [isBooking, setBooking] = useState(false);
  const stations = useStations();
  const days = dayStarts(at, Number(span), timeZone);
  const from = days[0] ?? at;
  const to = days.at(-1) ?? at;
  const bookings = useBookings(from, to);
  const rules = useStationRules(
    (stations.data ?? []).map(({ id }) => id),
    from,
  );
  const move = (count: number) => setAt(new Date(at.getTime() + count * Number(span) * dayMs));
  return (
    <Screen title={words.title}>
      <Group className="no-print">
        <Button component={Link} href="/room/plan">
          {words.plan}
        </Button>
        <Button variant="default" onClick={() => setBooking(!isBooking)}>
          {words.book}
        </Button>
      </Group>
      {isBooking && <BookForm onDone={() => setBooking(false)} />}
      <Group className="no-print">
        <SegmentedControl
          aria-label={words.span}
          value={span}
          onChange={setSpan}
          data={[
            { value: '14', label: words.twoWeeks },
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
        <span className="soft">
          {times.day(from)}
          {span === '14' && ` – ${times.day(new Date(to.getTime() - 1))}`}
        </span>
      </Group>
      {chosen !== null && (
        <BookingPanel key={chosen.id} booking={chosen} onDone={() => setChosen(null)} />
      )}
      <Loaded query={stations}>
        {(found) =>
          found.length === 0 ? (
            <Empty>{words.none}</Empty>
          ) : (
            <Loaded query={bookings}>
              {(booked) => (
                <>
                  {found.map((station) => (
                    <StationDrawing
                      key={station.id}
                      station={station}
                      days={days}
                      bookings={booked.filter(({ stationId }) => stationId === station.id)}
                      closures={(rules.data?.closures ?? []).filter(
                        ({ stationId }) => stationId === station.id,
                      )}
                      windows={(rules.data?.windows ?? []).filter(
                        ({ stationId }) => stationId === station.id,
                      )}
                      onChoose={setChosen}
                    />
                  ))}
                  <Legend />
                  <details className="sheet">
                    <summary>{words.list}</summary>
                    <BookingList bookings={booked} onChoose={setChosen} />
                  </details>
                </>
              )}
            </Loaded>
          )
        }
      </Loaded>
      <Sheet>
        <Link href="/club/stations">{text.club.parts.stations}</Link>
      </Sheet>
    </Screen>
  );
}
