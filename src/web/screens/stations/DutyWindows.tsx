import { Button, Group, Text } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState } from 'react';
import { useClub } from '../../api/club';
import { readAnew } from '../../api/queries';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import { Loaded } from '../../ui/Loaded';
import { Sheet } from '../../ui/Sheet';
import { useTimes } from '../../ui/times';
import type { Station } from '../club/club-queries';
import { DutyWindowForm } from './DutyWindowForm';
import { removeWindow, useDutyWindows, type DutyWindow } from './station-queries';

const words = text.stations;

/** Times for which the station is kept for one duty. */
export function DutyWindows({ station }: { station: Station }) {
  const { role } = useClub();
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
                <Row station={station} window={window} />
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

function Row({ station, window }: { station: Station; window: DutyWindow }) {
  const { clubId, role } = useClub();
  const times = useTimes();
  const [isChanging, setChanging] = useState(false);
  const remove = useMutation({
    mutationFn: () => removeWindow({ clubId, stationId: station.id, id: window.id }),
    onSuccess: readAnew,
  });
  if (isChanging) {
    return <DutyWindowForm station={station} window={window} onDone={() => setChanging(false)} />;
  }
  return (
    <>
      <div className="row wraps">
        <span>
          <strong>{words.window(text.room.duties[window.duty])}</strong>
          <span className="soft">
            {times.dateAndTime(window.startsAt)} – {times.dateAndTime(window.endsAt)}
          </span>
          <span>{window.note}</span>
        </span>
        {role === 'steward' && (
          <Group gap="xs">
            <Button variant="default" onClick={() => setChanging(true)}>
              {words.changeIt}
            </Button>
            <Button variant="default" loading={remove.isPending} onClick={() => remove.mutate()}>
              {words.removeIt}
            </Button>
          </Group>
        )}
      </div>
      {remove.isError && <Failure error={remove.error} />}
    </>
  );
}
