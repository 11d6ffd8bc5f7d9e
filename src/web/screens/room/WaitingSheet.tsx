import { Button } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useClub } from '../../api/club';
import { readAnew } from '../../api/queries';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import { Sheet } from '../../ui/Sheet';
import { useTimes } from '../../ui/times';
import { durationWords } from '../today/duration-words';
import { leaveLine, useWaitingList, type WaitingWish } from './waiting-queries';

const words = text.room;

/** Who waits for which station, in the order in which they are served. Nothing while nobody does. */
export function WaitingSheet() {
  const { data: line = [] } = useWaitingList();
  if (line.length === 0) return null;
  const stations = [...new Map(line.map((wish) => [wish.stationId, wish.stationName]))];
  return (
    <Sheet title={words.waitingList}>
      {stations.map(([stationId, name]) => (
        <div key={stationId}>
          <h3 className="part">{name}</h3>
          <ol className="rows">
            {line
              .filter((wish) => wish.stationId === stationId)
              .map((wish, index) => (
                <li key={wish.id}>
                  <Wish wish={wish} number={index + 1} />
                </li>
              ))}
          </ol>
        </div>
      ))}
    </Sheet>
  );
}

function Wish({ wish, number }: { wish: WaitingWish; number: number }) {
  const { clubId, memberId, role } = useClub();
  const times = useTimes();
  const leave = useMutation({
    mutationFn: () => leaveLine(clubId, wish.id),
    onSuccess: readAnew,
  });
  const keptUntil = wish.offer?.keptUntil ?? null;
  return (
    <>
      <div className="row wraps">
        <span>
          <strong>
            {words.inLine(number, wish.memberName)} · {words.duties[wish.duty]}
          </strong>
          <span className="soft">
            {words.wish(
              words.placesCount(wish.places),
              durationWords(wish.minutes),
              times.dayAndTime(wish.notBefore),
              times.dayAndTime(wish.notAfter),
            )}
            {wish.note !== '' && ` · ${wish.note}`}
          </span>
          {keptUntil !== null && <span>{words.keptForThem(times.dayAndTime(keptUntil))}</span>}
        </span>
        {(wish.memberId === memberId || role === 'steward') && (
          <Button variant="default" loading={leave.isPending} onClick={() => leave.mutate()}>
            {words.waitNoLonger}
          </Button>
        )}
      </div>
      {leave.isError && <Failure error={leave.error} />}
    </>
  );
}
