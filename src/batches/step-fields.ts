import { invalidField } from '../core/refusal';
import type { StepKind } from '../platform/prisma-client/enums';
import type { StepRequest } from './batches.requests';

type KindField = 'seed' | 'honey' | 'pots' | 'seedPutByKg' | 'seedName' | 'seedGrain' | 'lossKg';

const kindsOf: Record<KindField, StepKind[]> = {
  seed: ['seeded'],
  honey: ['seeded'],
  pots: ['potted'],
  seedPutByKg: ['potted'],
  seedName: ['potted'],
  seedGrain: ['potted'],
  lossKg: ['seeded', 'potted'],
};

/** Refuses what does not go with the kind of step: fields of another kind, and fields that are missing. */
export function refuseOtherFields(request: StepRequest): void {
  const { kind } = request;
  if (kind === 'set') {
    throw invalidField(
      '#/kind',
      'A batch has set when somebody saw it: file a setting check with the state set.',
    );
  }
  for (const field of Object.keys(kindsOf) as KindField[]) {
    if (request[field] !== undefined && !kindsOf[field].includes(kind)) {
      throw invalidField(`#/${field}`, `${field} goes with ${kindsOf[field].join(' or ')} only.`);
    }
  }
  if (kind === 'potted') {
    if (request.pots === undefined) throw invalidField('#', 'pots must name at least one size.');
    refuseRepeatedSizes(request.pots);
    for (const field of ['seedName', 'seedGrain'] as const) {
      if (request[field] !== undefined && request.seedPutByKg === undefined) {
        throw invalidField(`#/${field}`, `${field} goes with seedPutByKg.`);
      }
    }
  }
}

function refuseRepeatedSizes(pots: { netMassKg: number }[]): void {
  const sizes = pots.map(({ netMassKg }) => netMassKg);
  const twice = sizes.findIndex((size, index) => sizes.indexOf(size) !== index);
  if (twice >= 0) {
    throw invalidField(`#/pots/${twice}/netMassKg`, 'Name each size once, with all its pots.');
  }
}
