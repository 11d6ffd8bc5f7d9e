import { Text } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { answer, api } from '../../api/client';
import { useClub } from '../../api/club';
import type { components } from '../../api/schema';
import { text } from '../../text';
import { useUnits } from '../../ui/choices';
import { Loaded } from '../../ui/Loaded';
import { decimals, figures } from '../../ui/numbers';
import { differenceText, useUnitWords } from '../../ui/units';

const words = text.batches.warmingFit;

type Fit = NonNullable<components['schemas']['WarmingFitResponse']['fit']>;
type Estimated = Fit['filmWPerM2K'];

/** How fast a pail really warmed and how long it takes the next time: in one sentence, and unfolded with the numbers behind it. */
export function WarmingFit({ batchId }: { batchId: string }) {
  const { clubId } = useClub();
  const fit = useQuery({
    queryKey: ['warming-fit', clubId, batchId],
    queryFn: () =>
      answer(
        api.GET('/api/v1/clubs/{clubId}/batches/{batchId}/warming-fit', {
          params: { path: { clubId, batchId } },
        }),
      ),
    staleTime: 300_000,
  });
  return (
    <Loaded query={fit}>
      {({ fit: found, inWords, assumptions, method, cautions }) => (
        <details>
          <summary>
            <span>{found === null ? words.title : inWords}</span>
          </summary>
          {found === null ? <Text size="sm">{inWords}</Text> : <Numbers fit={found} />}
          {cautions.map((caution) => (
            <Text size="sm" mt="xs" fw={600} key={caution.about}>
              {caution.text}
            </Text>
          ))}
          {found !== null && (
            <details>
              <summary>{text.batches.how}</summary>
              <Text size="sm">{method}</Text>
              {assumptions.map((assumption) => (
                <Text size="sm" mt="xs" key={assumption.text}>
                  {assumption.text} <span className="soft">({assumption.source})</span>
                </Text>
              ))}
            </details>
          )}
        </details>
      )}
    </Loaded>
  );
}

function Numbers({ fit }: { fit: Fit }) {
  const units = useUnits();
  const { temperature } = useUnitWords();
  const hours = (value: number) => words.hours(figures(value));
  const rows: [what: string, usual: string, logged: string][] = [
    [
      words.hoursUntil(temperature(fit.clearC), temperature(fit.nextStartC)),
      fit.reckonedHours === null ? words.never : figures(fit.reckonedHours),
      fit.nextHours === null ? words.never : spread(fit.nextHours, figures),
    ],
    [words.film, usualOf(fit.filmWPerM2K, figures), spread(fit.filmWPerM2K, figures)],
    [words.crystals, usualOf(fit.crystalPercent, figures), spread(fit.crystalPercent, figures)],
    [words.start, usualOf(fit.startC, temperature), spread(fit.startC, temperature)],
  ];
  return (
    <>
      <table className="plain">
        <thead>
          <tr>
            <td />
            <th scope="col">{words.head.usual}</th>
            <th scope="col">{words.head.logged}</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(([what, usual, logged]) => (
            <tr key={what}>
              <th scope="row" className="light">
                {what}
              </th>
              <td>{usual}</td>
              <td>{logged}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <Text size="sm">{words.brackets}</Text>
      <Text size="sm">
        {words.readings(fit.probeName, decimals(fit.readings), differenceText(fit.scatterC, units))}{' '}
        {fit.loggedHours !== null &&
          words.probeClear(temperature(fit.clearC), hours(fit.loggedHours))}{' '}
        {fit.air.basis === 'logged' &&
          words.air(temperature(fit.air.meanC), temperature(fit.air.setC))}
      </Text>
    </>
  );
}

function usualOf({ usual }: Estimated, told: (value: number) => string): string {
  return usual === null ? '–' : told(usual);
}

function spread({ value, lower, upper }: Estimated, told: (value: number) => string): string {
  return words.spread(told(value), told(lower), told(upper));
}
