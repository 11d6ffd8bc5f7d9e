import { Button, Group } from '@mantine/core';
import { useState } from 'react';
import { Link } from 'wouter';
import { text } from '../../text';
import { Screen } from '../../ui/Screen';
import { BookForm, type BookingIdea } from './BookForm';
import { KeptForYou } from './KeptForYou';
import { NoShowsSheet } from './NoShowsSheet';
import { OverstaysSheet } from './OverstaysSheet';
import { RoomDiary } from './RoomDiary';

const words = text.room;

/** Stations, places and time: what is free, what is mine, and everybody else's. */
export function RoomScreen() {
  /** What the form for bookings begins with; undefined: it is not open. */
  const [idea, setIdea] = useState<BookingIdea | null | undefined>(undefined);
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
      <RoomDiary />
      <Link href="/club/stations" className="way-in no-print">
        {text.club.parts.stations}
      </Link>
    </Screen>
  );
}
