import { memo, startTransition, useDeferredValue, useEffect, useState } from 'react';
import type { Station } from '../club/club-queries';
import type { Booking, Closure, DutyWindow } from './room-queries';
import { StationDrawing } from './StationDrawing';

interface Rules {
  closures: Closure[];
  windows: DutyWindow[];
}

export const noRules: Rules = { closures: [], windows: [] };

interface Drawn {
  stations: Station[];
  days: Date[];
  bookings: Booking[];
  /** Of what starts later not all is here yet; null: all is. */
  knownUntil: string | null;
  rules: Rules;
  onChoose: (booking: Booking) => void;
}

/** The drawings follow when there is time: a tap is answered before thousands of bookings are drawn anew. */
export function StationDrawings({ stations, days, bookings, knownUntil, rules, onChoose }: Drawn) {
  return (
    <DrawnInTurns
      stations={stations}
      days={useDeferredValue(days)}
      bookings={useDeferredValue(bookings)}
      knownUntil={useDeferredValue(knownUntil)}
      rules={useDeferredValue(rules)}
      onChoose={onChoose}
    />
  );
}

/** The first station is there at once, the others one after the other. */
const DrawnInTurns = memo(function DrawnInTurns({
  stations,
  days,
  bookings,
  knownUntil,
  rules,
  onChoose,
}: Drawn) {
  const [drawn, setDrawn] = useState(1);
  useEffect(() => {
    if (drawn >= stations.length) return;
    const timer = setTimeout(() => startTransition(() => setDrawn(drawn + 1)));
    return () => clearTimeout(timer);
  }, [drawn, stations.length]);
  return stations.slice(0, drawn).map((station) => {
    const isOfIt = ({ stationId }: { stationId: string }) => stationId === station.id;
    return (
      <StationDrawing
        key={station.id}
        station={station}
        days={days}
        bookings={bookings.filter(isOfIt)}
        knownUntil={knownUntil}
        closures={rules.closures.filter(isOfIt)}
        windows={rules.windows.filter(isOfIt)}
        onChoose={onChoose}
      />
    );
  });
});
