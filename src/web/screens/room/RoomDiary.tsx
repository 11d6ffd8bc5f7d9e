import { Button, Group, SegmentedControl, Stack } from '@mantine/core';
import { memo, useMemo, useState } from 'react';
import { Link } from 'wouter';
import { useClub } from '../../api/club';
import { text } from '../../text';
import { Empty } from '../../ui/Empty';
import { Folded } from '../../ui/Folded';
import { Loaded } from '../../ui/Loaded';
import { useTimes } from '../../ui/times';
import { BookingList } from './BookingList';
import { BookingPanel } from './BookingPanel';
import { dayStarts, daysAtFirst } from './days';
import { Legend } from './Legend';
import { useDiary } from './room-queries';
import { StationDrawing } from './StationDrawing';
import { WaitingSheet } from './WaitingSheet';

const words = text.room;
const dayMs = 86_400_000;

type Span = '14' | '7' | '1';

/** The stations, each drawn with its diary of some days; a booking that is chosen opens below its station. */
export const RoomDiary = memo(function RoomDiary() {
  const { timeZone, role } = useClub();
  const times = useTimes();
  const [span, setSpan] = useState<Span>(`${daysAtFirst}`);
  const [at, setAt] = useState(() => new Date());
  /** The id of a booking. */
  const [chosen, setChosen] = useState<string | null>(null);
  const days = useMemo(() => dayStarts(at, Number(span), timeZone), [at, span, timeZone]);
  const from = days[0] ?? at;
  const to = days.at(-1) ?? at;
  const diary = useDiary(days);
  const move = (count: number) => setAt(new Date(at.getTime() + count * Number(span) * dayMs));
  return (
    <>
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
    </>
  );
});
