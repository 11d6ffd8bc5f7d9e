import { checkPots, potsFromBatch } from '../core/honey/pot-check';
import { tolerableDeficiencyG } from '../core/honey/tolerable-deficiency';
import { gramsOf } from '../platform/fields';
import { cautions } from '../core/cautions';
import type { NetQuantityRequest, PottingRequest } from './net-quantity.requests';
import type { NetQuantityResponse, PottingResult, WeighedPots } from './net-quantity.responses';
import { reckoned, rounded } from './reckoned';
import { sent } from './sent';

const basis = {
  method:
    'Tolerable deficiency T by the label: a percentage or a fixed mass, percentages rounded up to 0.1 g. The mean of all pots must reach the ' +
    'label; at most 2.5 % of them may fall short by more than T (in a set below 40 pots: none); none by more than 2 T. Pots of a batch: ' +
    'what is left of it, divided by what goes into one.',
  source:
    'OIML R 87, Quantity of product in prepackages, Table 1; Directive 76/211/EEC. Some national law is stricter (German: 2 %).',
  validRange: 'Labels of 5 to 25,000 g; every pot of the batch weighed, not a sample of them.',
  cautions: [cautions.law, cautions.gear, cautions.infants],
};

/** What a label allows, whether weighed pots keep to it, and how many pots a batch fills. */
export function reckonNetQuantity(request: NetQuantityRequest): NetQuantityResponse {
  const { nominalG, weighedG } = request;
  const potting = request.potting && filled(request.potting, nominalG);
  const places = { nominalG: '#/nominalG', netMassesG: '#/weighedG' };
  const toleranceG = reckoned(places, () => tolerableDeficiencyG(nominalG));
  return {
    inputs: { ...sent(request), ...(potting && { potting }) },
    tolerableDeficiencyG: toleranceG,
    inadequateBelowG: rounded(nominalG - toleranceG, 1),
    forbiddenBelowG: rounded(nominalG - 2 * toleranceG, 1),
    weighed: weighedG === undefined ? null : checked(nominalG, weighedG),
    potting: potting === undefined ? null : potted(potting),
    ...basis,
  };
}

function filled(potting: PottingRequest, nominalG: number): Required<PottingRequest> {
  const { batchKg, seedPutByKg = 0, lostKg = 0, filledG = Math.ceil(nominalG) } = potting;
  return { batchKg, seedPutByKg, lostKg, filledG };
}

function checked(nominalG: number, weighedG: number[]): WeighedPots | null {
  const check = checkPots(nominalG, weighedG);
  if (check.kind === 'no-pots') return null;
  const { pots, meanG, meanIsEnough, inadequate, inadequateAllowed, forbidden, passes } = check;
  return {
    pots,
    meanG: rounded(meanG, 2),
    meanIsEnough,
    inadequate,
    inadequateAllowed,
    forbidden,
    passes,
  };
}

function potted({
  batchKg,
  seedPutByKg,
  lostKg,
  filledG,
}: Required<PottingRequest>): PottingResult {
  const places = { putByMassG: '#/potting/seedPutByKg' };
  const { pots, leftMassG } = reckoned(places, () =>
    potsFromBatch({
      batchMassG: gramsOf(batchKg),
      putByMassG: gramsOf(seedPutByKg),
      lostMassG: gramsOf(lostKg),
      filledMassG: filledG,
    }),
  );
  return { pots, leftG: leftMassG };
}
