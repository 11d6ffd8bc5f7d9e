import { Button } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useClub } from '../../api/club';
import { readAnew } from '../../api/queries';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import { Sheet } from '../../ui/Sheet';
import { useTimes } from '../../ui/times';
import { changeStation, useStationsOutOfUse } from './station-queries';

const words = text.stations;

/** What was sold or broke: a steward takes it into use again, if that was a mistake. */
export function OutOfUse() {
  const { clubId, role } = useClub();
  const times = useTimes();
  const { data: stations = [] } = useStationsOutOfUse();
  const takeBack = useMutation({
    mutationFn: (id: string) => changeStation(clubId, id, { retired: false }),
    onSuccess: readAnew,
  });
  if (stations.length === 0) return null;
  return (
    <Sheet title={words.outOfUse}>
      <ul className="rows">
        {stations.map(({ id, name, retiredAt }) => (
          <li key={id} className="row wraps">
            <span>
              <strong>{name}</strong>
              {retiredAt !== null && (
                <span className="soft">{words.since(times.date(retiredAt))}</span>
              )}
            </span>
            {role === 'steward' && (
              <Button
                variant="default"
                aria-label={words.takeBackName(name)}
                loading={takeBack.isPending && takeBack.variables === id}
                onClick={() => takeBack.mutate(id)}
              >
                {words.takeBack}
              </Button>
            )}
          </li>
        ))}
      </ul>
      {takeBack.isError && <Failure error={takeBack.error} />}
    </Sheet>
  );
}
