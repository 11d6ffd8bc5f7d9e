import { seedBuildUp } from '../core/honey/seed-build-up';
import { gramsOf, kgOf } from '../platform/fields';
import { reckoned, rounded } from './reckoned';
import type { SeedBuildUpRequest } from './seeding.requests';
import type { SeedBuildUp } from './seeding.responses';

const places = {
  startSeedG: '#/buildUp/startSeedKg',
  wantedSeedG: '#/buildUp/wantedSeedKg',
  keepPercentOfBlend: '#/buildUp/keepPercentOfBlend',
  batchesPerMonth: '#/buildUp/batchesPerMonth',
  largestBatchG: '#/buildUp/largestBatchKg',
  percentOfBlend: '#/percent',
};

/** When there is enough seed, batch after batch. */
export function reckonBuildUp(request: SeedBuildUpRequest, percentOfBlend: number): SeedBuildUp {
  const { startSeedKg, wantedSeedKg, keepPercentOfBlend, batchesPerMonth = 1 } = request;
  const plan = reckoned(places, () =>
    seedBuildUp({
      startSeedG: gramsOf(startSeedKg),
      wantedSeedG: gramsOf(wantedSeedKg),
      keepPercentOfBlend,
      batchesPerMonth,
      percentOfBlend,
      ...(request.largestBatchKg !== undefined && {
        largestBatchG: gramsOf(request.largestBatchKg),
      }),
    }),
  );
  return {
    outcome: plan.kind,
    afterMonths: plan.kind === 'enough' ? rounded(plan.afterMonths, 2) : null,
    keepMoreThanPercentOfBlend:
      plan.kind === 'never' ? rounded(plan.keepMoreThanPercentOfBlend, 2) : null,
    batches: plan.kind === 'never' ? [] : plan.batches.map(toBatch),
  };
}

type PlannedBatch = Extract<ReturnType<typeof seedBuildUp>, { kind: 'enough' }>['batches'][number];

function toBatch(batch: PlannedBatch): SeedBuildUp['batches'][number] {
  return {
    number: batch.number,
    readyAfterMonths: rounded(batch.readyAfterMonths, 2),
    seedUsedKg: rounded(kgOf(batch.seedUsedG), 3),
    blendKg: rounded(kgOf(batch.blendG), 3),
    keptKg: rounded(kgOf(batch.keptG), 3),
    seedInHandKg: rounded(kgOf(batch.seedInHandG), 3),
    firstSeedPercent: rounded(batch.firstSeedPercent, 2),
  };
}
