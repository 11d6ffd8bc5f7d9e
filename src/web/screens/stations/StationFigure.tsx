import { useClub } from '../../api/club';
import { text } from '../../text';
import type { Station } from '../club/club-queries';
import type { Booking } from '../room/room-queries';
import { colours } from '../room/station-colours';

const words = text.stations;
const pailWidth = 36;
const pailHeight = 34;
const step = 46;
const shelfHeight = 48;
const edge = 12;
const mostOnShelf = 10;

/** A station as it stands in the room: its shelves, a pail for each place, those full on which something is booked now. */
export function StationFigure({ station, standing }: { station: Station; standing: Booking[] }) {
  const { memberId } = useClub();
  const onShelf = shelfLength(station.places);
  const shelves = Math.ceil(station.places / onShelf);
  const width = onShelf * step + 2 * edge;
  const isBench = station.duties.every(({ duty }) => duty === 'bench');
  const feet = isBench ? 40 : 10;
  const height = shelves * shelfHeight + (isBench ? 0 : edge) + feet;
  const taken = standing.reduce((sum, { places }) => sum + places.length, 0);
  return (
    <svg
      viewBox={`0 0 ${width} ${height}`}
      width={width}
      className="station-figure"
      role="img"
      aria-label={words.figure(taken, station.places)}
    >
      {isBench ? (
        <path
          d={`M${edge + 6} ${height - feet}V${height - 2}M${width - edge - 6} ${height - feet}V${height - 2}`}
          className="frame-line"
        />
      ) : (
        <path
          d={`M3 4h${width - 6}v${height - feet - 4}H3zM${edge} ${height - feet}v${feet - 2}M${width - edge} ${height - feet}v${feet - 2}`}
          className="frame-line"
        />
      )}
      {Array.from({ length: shelves }, (_, shelf) => (
        <line
          key={shelf}
          x1={isBench ? 2 : 3}
          x2={width - (isBench ? 2 : 3)}
          y1={(shelf + 1) * shelfHeight}
          y2={(shelf + 1) * shelfHeight}
          className="frame-line"
        />
      ))}
      {Array.from({ length: station.places }, (_, index) => {
        const booking = standing.find(({ places }) => places.includes(index + 1));
        const x = edge + (index % onShelf) * step + (step - pailWidth) / 2;
        const bottom = (Math.floor(index / onShelf) + 1) * shelfHeight - 2;
        const isMine = booking?.memberId === memberId;
        return (
          <g key={index}>
            <path
              d={`M${x} ${bottom - pailHeight}h${pailWidth}l-4 ${pailHeight}h${8 - pailWidth}z`}
              fill={booking === undefined ? 'none' : colours[booking.duty]}
              fillOpacity={isMine ? 0.95 : 0.35}
              stroke={booking === undefined ? 'var(--ink-soft)' : colours[booking.duty]}
              strokeDasharray={booking?.state === 'kept' ? '4 3' : ''}
            />
            <text
              x={x + pailWidth / 2}
              y={bottom - 11}
              textAnchor="middle"
              fontSize={14}
              fill={isMine ? 'var(--sheet)' : 'var(--ink)'}
            >
              {index + 1}
            </text>
          </g>
        );
      })}
    </svg>
  );
}

/** Shelves of about the same length, none longer than ten. */
function shelfLength(places: number): number {
  return Math.ceil(places / Math.ceil(places / mostOnShelf));
}
