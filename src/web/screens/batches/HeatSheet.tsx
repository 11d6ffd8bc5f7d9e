import { Text } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { answer, api } from '../../api/client';
import { useClub } from '../../api/club';
import type { components } from '../../api/schema';
import { text } from '../../text';
import { figures } from '../../ui/numbers';
import { Loaded } from '../../ui/Loaded';
import { Sheet } from '../../ui/Sheet';
import { BudgetBar } from './BudgetBar';
import { bestLogged, useTemperatures, type Temperatures } from './temperature-queries';

const words = text.batches.budget;

type Reckoning = components['schemas']['ReckoningResponse'];
type Loss = components['schemas']['HeatLoss'];

/** What heat has cost the honey, and will by the plan, against what the law allows; and whether the honey keeps. */
export function HeatSheet({ batchId }: { batchId: string }) {
  const { clubId } = useClub();
  const temperatures = useTemperatures(batchId);
  const reckoning = useQuery({
    queryKey: ['reckoning', clubId, batchId],
    queryFn: () =>
      answer(
        api.GET('/api/v1/clubs/{clubId}/batches/{batchId}/reckoning', {
          params: { path: { clubId, batchId } },
        }),
      ),
    staleTime: 300_000,
  });
  return (
    <Sheet title={text.batches.heat}>
      <Loaded query={reckoning}>
        {(reckoned) => (
          <>
            <Loaded query={temperatures}>
              {(found) => <Budget reckoned={reckoned} temperatures={found} />}
            </Loaded>
            {[reckoned.fermentation?.warning, reckoned.grain?.warning]
              .filter((warning) => typeof warning === 'string')
              .map((warning) => (
                <Text key={warning} mt="sm" fw={600}>
                  {warning}
                </Text>
              ))}
          </>
        )}
      </Loaded>
    </Sheet>
  );
}

function Budget({ reckoned, temperatures }: { reckoned: Reckoning; temperatures: Temperatures }) {
  const { limits, planned } = temperatures;
  const { loss: soFar, basis } = soFarOf(reckoned, temperatures);
  const plan = planned?.cost ?? null;
  const whole = soFar ?? plan;
  if (whole === null) {
    return (
      <Text className="soft">
        {reckoned.notReckoned.find(({ part }) => part === 'heat')?.reason ?? words.unknown}
      </Text>
    );
  }
  const law = limits.mostHmfMgPerKg;
  // What decides is the most that was lost or may be by the plan, and the fastest HMF.
  const worst = [soFar, plan].filter((loss) => loss !== null);
  const mostHmf = Math.max(...worst.map(({ hmfGain }) => hmfGain.mostMgPerKg));
  const leastLeft = Math.min(...worst.map(({ diastaseLeftPercent }) => diastaseLeftPercent));
  return (
    <>
      <BudgetBar
        title={words.hmf}
        label={words.hmfPicture(hmfOf(soFar), hmfOf(plan), String(law))}
        soFarPart={(soFar?.hmfGain.likelyMgPerKg ?? 0) / law}
        plannedPart={(plan?.hmfGain.likelyMgPerKg ?? 0) / law}
      />
      <dl className="pairs">
        <dt>{words.soFar}</dt>
        <dd>{hmfOf(soFar)}</dd>
        <dt>{words.planned}</dt>
        <dd>{plan === null ? words.notPlanned : hmfOf(plan)}</dd>
      </dl>
      <Text size="sm">{words.hmfRoom(figures(Math.max(0, law - mostHmf)), String(law))}</Text>
      <BudgetBar
        title={words.diastase}
        label={words.diastasePicture(diastaseOf(soFar), diastaseOf(plan))}
        soFarPart={1 - (soFar?.diastaseLeftPercent ?? 100) / 100}
        plannedPart={1 - (plan?.diastaseLeftPercent ?? 100) / 100}
      />
      <dl className="pairs">
        <dt>{words.soFar}</dt>
        <dd>{diastaseOf(soFar)}</dd>
        <dt>{words.planned}</dt>
        <dd>{plan === null ? words.notPlanned : diastaseOf(plan)}</dd>
      </dl>
      <Text size="sm">
        {words.diastaseRoom(
          figures((100 * limits.leastDiastaseNumber) / leastLeft),
          String(limits.leastDiastaseNumber),
        )}
      </Text>
      <Text size="sm" className="soft">
        {words.barKey}
      </Text>
      <details>
        <summary>{words.sure}</summary>
        <Text size="sm">{words.basis[basis]}</Text>
        <Text size="sm">{words.hmfSpread}</Text>
        <Text size="sm">{words.noMeasure}</Text>
        <Text size="sm" className="soft">
          {limits.source}
        </Text>
      </details>
    </>
  );
}

/** By the records of warming as a whole; while it runs, by what a probe has logged. */
function soFarOf(
  { heat }: Reckoning,
  temperatures: Temperatures,
): { loss: Loss | null; basis: keyof typeof words.basis } {
  if (heat !== null) return { loss: heat.evenly, basis: heat.basis };
  const logged = bestLogged(temperatures)?.cost ?? null;
  return { loss: logged, basis: logged === null ? 'plan' : 'probe' };
}

function hmfOf(loss: Loss | null): string {
  if (loss === null) return words.unknown;
  const { likelyMgPerKg, leastMgPerKg, mostMgPerKg } = loss.hmfGain;
  // The spread of the published rates is worth no third figure.
  return words.hmfGain(
    figures(likelyMgPerKg, 2),
    figures(leastMgPerKg, 2),
    figures(mostMgPerKg, 2),
  );
}

function diastaseOf(loss: Loss | null): string {
  return loss === null ? words.unknown : words.left(figures(loss.diastaseLeftPercent));
}
