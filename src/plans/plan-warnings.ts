import { kgOf } from '../platform/fields';
import { fermentationOf } from '../reckonings/fermentation-reckoning';
import { knownOr, NotKnown } from '../reckonings/reckoned';
import type { HoneyOfPlan } from './honey-of-plan';
import type { PlanFacts } from './plan-facts';
import type { PlanHold } from './plans.responses';

/** Of so much honey that does not set it is told. */
const worthTelling = 0.05;

/** What may go wrong with the honey of a plan, in words. */
export function planWarnings(honey: HoneyOfPlan, facts: PlanFacts, hold: PlanHold): string[] {
  const warnings: string[] = [];
  for (const { id, name, sets, grain } of facts.sources) {
    const part = honey.floralParts.get(id) ?? 0;
    if (part < worthTelling) continue;
    const percent = Math.round(100 * part);
    if (!sets) {
      warnings.push(
        `${percent} percent of the honey is ${name}, which by the club’s list does not set: it may stay liquid, and creaming it may be in vain.`,
      );
    }
    if (grain === 'coarse') {
      warnings.push(
        `${percent} percent of the honey is ${name}, which sets coarse: coarse crystals may need 45 °C and more to melt (Lupano 1997). Look before you take it out.`,
      );
    }
  }
  if (honey.moisturePercent === null) {
    warnings.push('The moisture of the honey is not known: measure it before you cream it.');
  } else {
    const { moisturePercent } = honey;
    const fermentation = knownOr(() => fermentationOf(moisturePercent));
    if (!(fermentation instanceof NotKnown) && fermentation.warning !== null) {
      warnings.push(fermentation.warning);
    }
  }
  if (hold.batchCount === 0) {
    warnings.push(
      'How long it takes to set rests on no batch of the club yet: look at it, and book longer if need be.',
    );
  }
  for (const { fact, massG } of honey.lots) {
    const short = massG + fact.plannedMassG - fact.remainingMassG;
    if (short > 0) {
      warnings.push(
        `Of “${fact.name}” ${kgOf(fact.plannedMassG)} kg are meant for other batches already: for all of them ${kgOf(short)} kg are missing.`,
      );
    }
  }
  return warnings.slice(0, 20);
}
