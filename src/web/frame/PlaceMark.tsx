export type Place =
  'today' | 'room' | 'batches' | 'seed' | 'setting' | 'calculators' | 'club' | 'account';

/** Our own drawings, one line thick. */
const drawings: Record<Place, string> = {
  // A pail on the bench, seen from the front.
  today: 'M5 9h14l-1.5 10h-11zM7 9c1-5 9-5 10 0M3 21h18',
  // Two shelves with pails.
  room: 'M3 11h18M3 20h18M3 4v17M21 4v17M6 11V7h4v4M13 11V7h4v4M9 20v-4h4v4',
  // A pot with its lid.
  batches: 'M6 8h12v11a2 2 0 0 1-2 2H8a2 2 0 0 1-2-2zM5 4h14v4H5zM9 13h6',
  // One tub becomes two.
  seed: 'M9 3h6v5H9zM3 16h6v5H3zM15 16h6v5h-6zM12 8v4M6 16v-2c0-1 .5-2 2-2h8c1.5 0 2 1 2 2v2',
  // Steps down to nothing left unset.
  setting: 'M3 4v17h18M3 6h5v4h4v4h4v4h5',
  // The honey house.
  club: 'M3 11l9-7 9 7M5 10v10h14V10M10 20v-6h4v6',
  // Somebody in a veil.
  account: 'M4 9h16M7 9c0-6 10-6 10 0M8 9c0 9 8 9 8 0M5 21c1-5 13-5 14 0',
  // Scales.
  calculators: 'M12 3v17M7 21h10M5 7h14M5 7l-3 7h6zM19 7l-3 7h6z',
};

export function PlaceMark({ of }: { of: Place }) {
  return (
    <svg
      width="24"
      height="24"
      viewBox="0 0 24 24"
      fill="none"
      stroke="currentColor"
      strokeWidth="1.7"
      strokeLinecap="round"
      strokeLinejoin="round"
      aria-hidden="true"
    >
      <path d={drawings[of]} />
    </svg>
  );
}
