import { useLayoutEffect, useRef, useState } from 'react';
import { text } from '../../text';
import { useTimes } from '../../ui/times';
import { blockPath } from './Blocks';
import type { DiaryBooking } from './diary';
import { bookingByKey, type StationPlan } from './station-plan';

/** The one block that the Tab key leads to; the arrow keys lead it from booking to booking. */
export function BlockCursor({
  plan,
  bookings,
  onChoose,
}: {
  plan: StationPlan;
  bookings: DiaryBooking[];
  onChoose: (id: string) => void;
}) {
  const times = useTimes();
  const element = useRef<SVGPathElement>(null);
  const [at, setAt] = useState<string | null>(null);
  // What comes to stand there is a new element: it takes the focus, and is read out.
  useLayoutEffect(() => {
    if (at !== null) element.current?.focus();
  }, [at]);
  const here = bookings.find(({ id }) => id === at) ?? bookings[0];
  if (here === undefined) return null;
  return (
    <path
      key={here.id}
      ref={element}
      // Without gaps between its places: a finger comes down there, too.
      d={blockPath(plan, here, 0)}
      className="block-cursor"
      role="button"
      tabIndex={0}
      aria-label={text.room.bookedBy(
        here.memberName,
        times.dayAndTime(here.startsAt),
        times.dayAndTime(here.endsAt),
      )}
      onClick={(event) => {
        event.stopPropagation();
        onChoose(here.id);
      }}
      onKeyDown={(event) => {
        const { key } = event;
        const next = bookingByKey(bookings, here, key);
        if (next !== undefined) setAt(next.id);
        else if (key === 'Enter' || key === ' ') onChoose(here.id);
        else return;
        event.preventDefault();
      }}
    />
  );
}
