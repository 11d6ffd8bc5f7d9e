import { Button, Text } from '@mantine/core';
import { useState } from 'react';
import { useClub } from '../../api/club';
import { text } from '../../text';
import { Loaded } from '../../ui/Loaded';
import { Sheet } from '../../ui/Sheet';
import type { Station } from '../club/club-queries';
import { DutyWindowForm } from './DutyWindowForm';
import { removeWindow, useDutyWindows } from './station-queries';
import { SpanRow } from './SpanRow';

const words = text.stations;

/** Times for which the station is kept for one duty. */
export function DutyWindows({ station }: { station: Station }) {
  const { clubId, role } = useClub();
  const windows = useDutyWindows(station.id);
  const [isAdding, setAdding] = useState(false);
  return (
    <Sheet title={words.windows}>
      <Text className="soft">{words.windowsIntro}</Text>
      <Loaded query={windows}>
        {(items) => (
          <ul className="rows">
            {items.length === 0 && <li className="row">{words.noWindows}</li>}
            {items.map((window) => (
              <li key={window.id}>
                <SpanRow
                  title={words.window(text.room.duties[window.duty])}
                  span={window}
                  note={window.note}
                  remove={() => removeWindow({ clubId, stationId: station.id, id: window.id })}
                  changeForm={(onDone) => (
                    <DutyWindowForm station={station} window={window} onDone={onDone} />
                  )}
                />
              </li>
            ))}
          </ul>
        )}
      </Loaded>
      {role === 'steward' &&
        (isAdding ? (
          <DutyWindowForm station={station} window={null} onDone={() => setAdding(false)} />
        ) : (
          <Button mt="sm" variant="default" onClick={() => setAdding(true)}>
            {words.newWindow}
          </Button>
        ))}
    </Sheet>
  );
}
