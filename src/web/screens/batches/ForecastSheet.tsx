import { Text } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { Fragment, lazy, Suspense } from 'react';
import { answer, api } from '../../api/client';
import { useClub } from '../../api/club';
import { text } from '../../text';
import { Loaded } from '../../ui/Loaded';
import { figures } from '../../ui/numbers';
import { Sheet } from '../../ui/Sheet';
import { useTimes } from '../../ui/times';
import { ForecastBand } from './ForecastBand';

const ChanceCurve = lazy(async () => ({ default: (await import('./ChanceCurve')).ChanceCurve }));

/** When the batch has set, or probably will have. */
export function ForecastSheet({ batchId }: { batchId: string }) {
  const { clubId } = useClub();
  const times = useTimes();
  const forecast = useQuery({
    queryKey: ['forecast', clubId, batchId],
    queryFn: () =>
      answer(
        api.GET('/api/v1/clubs/{clubId}/setting-forecast', {
          params: { path: { clubId }, query: { batchId } },
        }),
      ),
    staleTime: 300_000,
  });
  return (
    <Sheet title={text.batches.forecast}>
      <Loaded query={forecast}>
        {({ inWords, forecast: found, method, cautions }) => (
          <>
            {found !== null && (
              <>
                <dl className="pairs set-by">
                  {found.setBy.map(({ certaintyPercent, by }) => (
                    <Fragment key={certaintyPercent}>
                      <dt>{text.batches.surely(certaintyPercent)}</dt>
                      <dd>{by === null ? '…' : text.batches.setBy(times.day(by.at))}</dd>
                    </Fragment>
                  ))}
                </dl>
                <ForecastBand forecast={found} />
              </>
            )}
            <Text size={found === null ? 'md' : 'sm'}>{inWords}</Text>
            {found !== null && (
              <>
                <details className="no-print">
                  <summary>{text.batches.curveMore}</summary>
                  <Suspense fallback={<div className="drawing" />}>
                    <ChanceCurve curve={found.curve} setBy={found.setBy} />
                  </Suspense>
                  <table className="plain">
                    <thead>
                      <tr>
                        <th scope="col">{text.batches.chanceTable.day}</th>
                        <th scope="col">{text.batches.chanceTable.chance}</th>
                      </tr>
                    </thead>
                    <tbody>
                      {found.curve.map(({ on, chancePercent }) => (
                        <tr key={on}>
                          <th scope="row">{times.day(`${on}T12:00:00Z`)}</th>
                          <td>{figures(chancePercent)} %</td>
                        </tr>
                      ))}
                    </tbody>
                  </table>
                </details>
              </>
            )}
            <details>
              <summary>{text.batches.how}</summary>
              <Text size="sm">{method}</Text>
              {cautions.map((caution) => (
                <Text size="sm" key={caution}>
                  {caution}
                </Text>
              ))}
            </details>
          </>
        )}
      </Loaded>
    </Sheet>
  );
}
