import { VisuallyHidden } from '@mantine/core';
import { Link } from 'wouter';
import { useClub } from '../../api/club';
import { text } from '../../text';
import { Empty } from '../../ui/Empty';
import { Loaded } from '../../ui/Loaded';
import { Sheet } from '../../ui/Sheet';
import { useUnitWords } from '../../ui/units';
import { NewStation } from '../stations/NewStation';
import { OutOfUse } from '../stations/OutOfUse';
import { StationFigure } from '../stations/StationFigure';
import { useStanding } from '../stations/station-queries';
import { useStations, type Station } from './club-queries';

const words = text.club;

/** What stands in the room, drawn; each leads to what can be done with it. */
export function StationsPart() {
  const { role } = useClub();
  const stations = useStations();
  return (
    <>
      <Loaded query={stations}>
        {(items) =>
          items.length === 0 ? (
            <Empty>{words.noStations}</Empty>
          ) : (
            <div className="columns">
              {items.map((station) => (
                <StationSheet key={station.id} station={station} />
              ))}
            </div>
          )
        }
      </Loaded>
      <OutOfUse />
      {role === 'steward' && <NewStation />}
    </>
  );
}

function StationSheet({ station }: { station: Station }) {
  const { mass, temperature } = useUnitWords();
  const { data: standing = [] } = useStanding();
  return (
    <Sheet title={station.name}>
      <StationFigure
        station={station}
        standing={standing.filter(({ stationId }) => stationId === station.id)}
      />
      <ul className="plain-list">
        {station.duties.map(({ duty, minC, maxC }) => (
          <li key={duty}>{words.band(words.duties[duty], temperature(minC), temperature(maxC))}</li>
        ))}
        <li className="soft">{words.placesOf(station.places, mass(station.placeLoadKg))}</li>
      </ul>
      <Link href={`/club/stations/${station.id}`} className="way-in">
        {text.stations.look}
        <VisuallyHidden>: {station.name}</VisuallyHidden>
      </Link>
    </Sheet>
  );
}
