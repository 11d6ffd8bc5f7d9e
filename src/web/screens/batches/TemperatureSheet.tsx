import { Text } from '@mantine/core';
import { lazy, Suspense } from 'react';
import { Link } from 'wouter';
import { text } from '../../text';
import { Loaded } from '../../ui/Loaded';
import { Sheet } from '../../ui/Sheet';
import { useTimes } from '../../ui/times';
import { useUnitWords } from '../../ui/units';
import type { Batch } from './batch-queries';
import { bestLogged, useTemperatures, type Temperatures } from './temperature-queries';
import { TemperatureTable } from './TemperatureTable';
import { WarmingFit } from './WarmingFit';

const words = text.batches.temperatures;
const TemperatureCurves = lazy(async () => ({
  default: (await import('./TemperatureCurves')).TemperatureCurves,
}));

/** How a batch was to warm and to cool, and how it did: in words, drawn, and as a table. */
export function TemperatureSheet({ batch }: { batch: Batch }) {
  const temperatures = useTemperatures(batch.id);
  return (
    <Sheet
      title={words.title}
      aside={
        <Link href="/club/probes" className="no-print">
          {words.toProbes}
        </Link>
      }
    >
      <Loaded query={temperatures}>
        {(found) =>
          found.planned === null && found.logged.length === 0 ? (
            <Text className="soft">{words.nothing}</Text>
          ) : (
            <>
              <Sentences batch={batch} temperatures={found} />
              {isWarmed(batch) && bestLogged(found) !== undefined && (
                <WarmingFit batchId={batch.id} />
              )}
              <Suspense fallback={<div className="drawing" />}>
                <TemperatureCurves temperatures={found} steps={batch.steps} />
              </Suspense>
              <Key temperatures={found} steps={batch.steps} />
              <Moments temperatures={found} steps={batch.steps} />
              <TemperatureTable temperatures={found} />
              {found.planned !== null && (
                <details>
                  <summary>{words.how}</summary>
                  {found.planned.assumptions.map((assumption) => (
                    <Text size="sm" mt="xs" key={assumption.text}>
                      {assumption.text} <span className="soft">({assumption.source})</span>
                    </Text>
                  ))}
                </details>
              )}
            </>
          )
        }
      </Loaded>
    </Sheet>
  );
}

/** It was loaded, and taken out again. */
function isWarmed({ steps }: Batch): boolean {
  return steps.some(({ kind }) => kind === 'loaded') && steps.length > 1;
}

function Sentences({ batch, temperatures }: { batch: Batch; temperatures: Temperatures }) {
  const times = useTimes();
  const { temperature } = useUnitWords();
  const { planned, limits } = temperatures;
  const logged = bestLogged(temperatures);
  const degrees = temperature(limits.clearC);
  const isWarming = batch.stage === 'planned' || batch.stage === 'loaded';
  const told: string[] = [];
  if (logged?.clearAt != null) {
    const when = times.dayAndTime(logged.clearAt);
    told.push(
      planned?.clearAt == null
        ? words.reachedUnplanned(degrees, when)
        : words.reached(degrees, when, times.dayAndTime(planned.clearAt)),
    );
  } else if (isWarming && planned !== null) {
    told.push(plannedClear(planned.clearAt, logged !== undefined));
  }
  if (logged !== undefined && logged.warmestC > limits.hottestC) {
    told.push(
      words.tooHot(
        temperature(logged.warmestC),
        times.dayAndTime(logged.warmestAt),
        temperature(limits.hottestC),
      ),
    );
  }
  if (logged === undefined) told.push(words.noProbe);
  return told.map((sentence) => <Text key={sentence}>{sentence}</Text>);

  function plannedClear(clearAt: string | null, hasProbe: boolean): string {
    if (clearAt === null) return words.neverClear(degrees);
    const when = times.dayAndTime(clearAt);
    if (Date.parse(clearAt) > Date.now()) return words.willReach(degrees, when);
    return hasProbe ? words.late(degrees, when) : words.shouldHave(degrees, when);
  }
}

/** What each line of the drawing is. */
function Key({
  temperatures: { planned, logged },
  steps,
}: {
  temperatures: Temperatures;
  steps: Batch['steps'];
}) {
  return (
    <ul className="legend" aria-hidden>
      {planned !== null && (
        <>
          <li>
            <svg width="34" height="14">
              <rect y="1" width="34" height="12" fill="var(--ink-soft)" opacity="0.2" />
              <path d="M0 1h34M0 13h34" stroke="var(--ink-soft)" strokeDasharray="6 4" />
            </svg>
            {words.planned}
          </li>
          <li>
            <svg width="34" height="14">
              <path d="M0 7h34" stroke="var(--cool)" strokeWidth="1.5" strokeDasharray="1 4" />
            </svg>
            {words.setPoint}
          </li>
        </>
      )}
      {logged.map(({ probeId, probeName, place }) => (
        <li key={`${probeId}${place}`}>
          <svg width="34" height="14">
            <path
              d="M0 7h34"
              stroke={place === 'honey' ? 'var(--warm)' : 'var(--cool)'}
              strokeWidth={place === 'honey' ? 3 : 1.5}
            />
          </svg>
          {place === 'honey' ? words.logged(probeName) : words.air(probeName)}
        </li>
      ))}
      {steps.some(({ temperatureC }) => temperatureC !== null) && (
        <li>
          <svg width="14" height="14">
            <circle cx="7" cy="7" r="5" fill="var(--bench)" />
          </svg>
          {words.stepDot}
        </li>
      )}
    </ul>
  );
}

/** The moments that matter, planned beside logged. */
function Moments({ temperatures, steps }: { temperatures: Temperatures; steps: Batch['steps'] }) {
  const times = useTimes();
  const { temperature } = useUnitWords();
  const { planned, limits } = temperatures;
  const logged = bestLogged(temperatures);
  const at = (instant: string | null | undefined, otherwise: string) =>
    instant == null ? otherwise : `${times.shortDay(instant)}, ${times.time(instant)}`;
  const ofPlan = (instant: string | null | undefined) =>
    planned === null ? '–' : at(instant, words.notReached);
  const ofLog = (instant: string | null | undefined) =>
    logged === undefined ? '–' : at(instant, words.notYet);
  const takenOutAt = steps.find(({ kind }) => kind === 'cleared')?.at;
  const warmestPlanned = Math.max(...(planned?.points ?? []).map(({ warmestC }) => warmestC));
  const rows = [
    [
      words.moments.clear(temperature(limits.clearC)),
      ofPlan(planned?.clearAt),
      ofLog(logged?.clearAt),
    ],
    [words.moments.takenOut, ofPlan(planned?.takenOutAt), at(takenOutAt, words.notYet)],
    [
      words.moments.coolEnough(temperature(limits.seedC)),
      ofPlan(planned?.coolEnoughAt),
      ofLog(logged?.coolEnoughAt),
    ],
    [
      words.moments.warmest,
      planned === null ? '–' : temperature(warmestPlanned),
      logged === undefined ? '–' : temperature(logged.warmestC),
    ],
  ];
  return (
    <table className="plain">
      <thead>
        <tr>
          <td />
          <th scope="col">{words.head.planned}</th>
          <th scope="col">{words.head.logged}</th>
        </tr>
      </thead>
      <tbody>
        {rows.map(([what, plan, log]) => (
          <tr key={what}>
            <th scope="row" className="light">
              {what}
            </th>
            <td>{plan}</td>
            <td>{log}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
