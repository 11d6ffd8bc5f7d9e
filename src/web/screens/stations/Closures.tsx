import { Button } from '@mantine/core';
import { useState } from 'react';
import { useClub } from '../../api/club';
import { text } from '../../text';
import { Loaded } from '../../ui/Loaded';
import { Sheet } from '../../ui/Sheet';
import type { Station } from '../club/club-queries';
import { ChangeClosure } from './ChangeClosure';
import { ClosureForm } from './ClosureForm';
import { removeClosure, useClosures } from './station-queries';
import { SpanRow } from './SpanRow';

const words = text.stations;

/** When the station is out of use. */
export function Closures({ station }: { station: Station }) {
  const { clubId, role } = useClub();
  const closures = useClosures(station.id);
  const [isClosing, setClosing] = useState(false);
  return (
    <Sheet title={words.closures}>
      <Loaded query={closures}>
        {(items) => (
          <ul className="rows">
            {items.length === 0 && <li className="row">{words.noClosures}</li>}
            {items.map((closure) => (
              <li key={closure.id}>
                <SpanRow
                  title={closure.reason}
                  span={closure}
                  remove={() =>
                    removeClosure({ clubId, stationId: closure.stationId, id: closure.id })
                  }
                  changeForm={(onDone) => <ChangeClosure closure={closure} onDone={onDone} />}
                />
              </li>
            ))}
          </ul>
        )}
      </Loaded>
      {role === 'steward' &&
        (isClosing ? (
          <ClosureForm station={station} onDone={() => setClosing(false)} />
        ) : (
          <Button mt="sm" variant="default" onClick={() => setClosing(true)}>
            {words.newClosure}
          </Button>
        ))}
    </Sheet>
  );
}
