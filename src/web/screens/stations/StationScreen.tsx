import { Button, Text } from '@mantine/core';
import { useState } from 'react';
import { Link, useParams } from 'wouter';
import { useClub } from '../../api/club';
import { text } from '../../text';
import { Empty } from '../../ui/Empty';
import { Loaded } from '../../ui/Loaded';
import { Screen } from '../../ui/Screen';
import { Sheet } from '../../ui/Sheet';
import { useTimes } from '../../ui/times';
import { useUnitWords } from '../../ui/units';
import { useStations, type Station } from '../club/club-queries';
import { durationWords } from '../today/duration-words';
import { ChangeStation } from './ChangeStation';
import { Closures } from './Closures';
import { DutyWindows } from './DutyWindows';
import { useStanding } from './station-queries';
import { StationFigure } from './StationFigure';
import { TakeOut } from './TakeOut';

const words = text.stations;

/** One station: what stands in it now, when it is closed or kept for one duty, and what of it can be changed. */
export function StationScreen() {
  const { id } = useParams<{ id: string }>();
  const stations = useStations();
  return (
    <Loaded query={stations}>
      {(items) => {
        const station = items.find((one) => one.id === id);
        return station === undefined ? (
          <Screen title={text.frame.gone}>
            <Empty>
              <Link href="/club/stations">{words.back}</Link>
            </Empty>
          </Screen>
        ) : (
          <Found station={station} />
        );
      }}
    </Loaded>
  );
}

function Found({ station }: { station: Station }) {
  const { role } = useClub();
  return (
    <Screen title={station.name}>
      <Link href="/club/stations" className="way-in">
        {words.back}
      </Link>
      <div className="columns">
        <div>
          <Now station={station} />
          <Serves key={station.id} station={station} />
        </div>
        <div>
          {station.duties.length > 1 && <DutyWindows station={station} />}
          <Closures station={station} />
          {role === 'steward' && <TakeOut key={station.id} station={station} />}
        </div>
      </div>
    </Screen>
  );
}

function Now({ station }: { station: Station }) {
  const times = useTimes();
  const bookings = useStanding();
  return (
    <Sheet title={words.now}>
      <Loaded query={bookings}>
        {(all) => {
          const standing = all.filter(({ stationId }) => stationId === station.id);
          return (
            <>
              <StationFigure station={station} standing={standing} />
              {standing.length === 0 && <Text className="soft">{words.nothingNow}</Text>}
              <ul className="plain-list">
                {standing.map(({ id, places, memberName, endsAt }) => (
                  <li key={id}>
                    {words.standing(text.room.places(places), memberName, times.dayAndTime(endsAt))}
                  </li>
                ))}
              </ul>
            </>
          );
        }}
      </Loaded>
    </Sheet>
  );
}

/** What it does; a steward changes it in place. */
function Serves({ station }: { station: Station }) {
  const { role } = useClub();
  const [form, setForm] = useState<'closed' | 'open' | 'saved'>('closed');
  if (form === 'open') {
    return (
      <Sheet title={words.change}>
        <ChangeStation
          station={station}
          onSaved={() => setForm('saved')}
          onCancel={() => setForm('closed')}
        />
      </Sheet>
    );
  }
  return (
    <Sheet title={words.serves}>
      <Duties station={station} />
      {form === 'saved' && <Text role="status">{words.changed}</Text>}
      {role === 'steward' && (
        <Button mt="sm" variant="default" onClick={() => setForm('open')}>
          {words.change}
        </Button>
      )}
    </Sheet>
  );
}

function Duties({ station }: { station: Station }) {
  const { mass, temperature } = useUnitWords();
  return (
    <ul className="plain-list">
      {station.duties.map(({ duty, minC, maxC }) => (
        <li key={duty}>
          {text.club.band(text.club.duties[duty], temperature(minC), temperature(maxC))}
        </li>
      ))}
      <li>{text.club.placesOf(station.places, mass(station.placeLoadKg))}</li>
      {station.duties.length > 1 && (
        <li>{words.changeover(durationWords(station.changeoverMinutes))}</li>
      )}
    </ul>
  );
}
