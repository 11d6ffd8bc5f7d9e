import { Button, Group } from '@mantine/core';
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
import { ChangeClosure } from './ChangeClosure';
import { ClosureForm } from './ClosureForm';
import { removeClosure, useClosures, type Closure } from './station-queries';

const words = text.stations;

/** When the station is out of use. */
export function Closures({ station }: { station: Station }) {
  const { role } = useClub();
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
                <Row closure={closure} />
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

function Row({ closure }: { closure: Closure }) {
  const { clubId, role } = useClub();
  const times = useTimes();
  const [isChanging, setChanging] = useState(false);
  const remove = useMutation({
    mutationFn: () => removeClosure({ clubId, stationId: closure.stationId, id: closure.id }),
    onSuccess: readAnew,
  });
  if (isChanging) return <ChangeClosure closure={closure} onDone={() => setChanging(false)} />;
  return (
    <>
      <div className="row wraps">
        <span>
          <strong>{closure.reason}</strong>
          <span className="soft">
            {times.dateAndTime(closure.startsAt)} – {times.dateAndTime(closure.endsAt)}
          </span>
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
