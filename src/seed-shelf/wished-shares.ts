import { invalidParameter, Refusal } from '../core/refusal';
import { centiOf } from '../platform/fields';
import type { HoneyFacts } from './honey-facts';

/** Reads floral shares as a query has them, 'id:percent,id:percent'. Refuses what the club does not have, what stands twice, and more than 100 percent. */
export function sharesOfText(
  text: string | undefined,
  sources: HoneyFacts['sources'],
): HoneyFacts['shares'] {
  if (text === undefined) return [];
  const shares = text.split(',').map((share) => {
    const [id = '', percent = ''] = share.toLowerCase().split(':');
    return { floralSourceId: id, centiPercent: centiOf(Number(percent)) };
  });
  const ids = shares.map(({ floralSourceId }) => floralSourceId);
  if (new Set(ids).size < ids.length) throw refused('It names a floral source twice.');
  if (!ids.every((id) => sources.some((source) => source.id === id))) {
    throw refused('It names a floral source that the club does not have.');
  }
  const sum = shares.reduce((all, { centiPercent }) => all + centiPercent, 0);
  if (sum > 10_000) throw refused(`The shares add up to ${sum / 100} percent, more than 100.`);
  return shares.map(({ floralSourceId, centiPercent }) => ({
    floralSourceId,
    part: centiPercent / 10_000,
  }));
}

function refused(detail: string): Refusal {
  return invalidParameter('floralShares', detail);
}
