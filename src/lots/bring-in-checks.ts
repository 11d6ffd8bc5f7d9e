import { countryCodes } from '../core/country-codes';
import { invalidField } from '../core/refusal';
import type { ClubCaller } from '../platform/caller';
import type { Transaction } from '../platform/database';
import { centiOf } from '../platform/fields';
import type { BringInRequest } from './lots.requests';

/** Refuses what cannot be so, whatever the club has: shares that do not add up, no such country, grain of honey. */
export function refuseUnlessStated(request: BringInRequest): void {
  refuseUnlessWhole('#/floralShares', request.floralShares, (share) => share.floralSourceId);
  refuseUnlessWhole('#/originShares', request.originShares, (share) => share.countryCode);
  refuseUnknownCountries(request);
  if (request.kind === 'honey' && request.grain !== undefined) {
    throw invalidField('#/grain', 'Only seed has a grain to seed with.');
  }
}

/** Refuses shares that do not add up to 100 percent, to the hundredth, or that name one thing twice. */
function refuseUnlessWhole<Share extends { percent: number }>(
  pointer: string,
  shares: readonly Share[],
  keyOf: (share: Share) => string,
): void {
  const keys = shares.map((share) => keyOf(share).toLowerCase());
  const twice = keys.findIndex((key, index) => keys.indexOf(key) !== index);
  if (twice >= 0) {
    throw invalidField(`${pointer}/${twice}`, 'It stands there already: name it once.');
  }
  const sum = shares.reduce((total, share) => total + centiOf(share.percent), 0);
  if (sum !== 10_000) {
    throw invalidField(pointer, `The shares must add up to 100 percent, not ${sum / 100}.`);
  }
}

function refuseUnknownCountries({ originShares }: BringInRequest): void {
  const unknown = originShares.findIndex(({ countryCode }) => !countryCodes.includes(countryCode));
  if (unknown >= 0) {
    throw invalidField(
      `#/originShares/${unknown}/countryCode`,
      'It is not the code of a country: ISO 3166-1 alpha-2 lists them.',
    );
  }
}

/** Refuses a holder or a floral source that the club does not have. */
export async function refuseStrangers(
  tx: Transaction,
  { clubId }: ClubCaller,
  holderId: string,
  { floralShares }: BringInRequest,
): Promise<void> {
  const holder = await tx.member.findFirst({
    where: { clubId, id: holderId, leftAt: null },
    select: { id: true },
  });
  if (holder === null) throw invalidField('#/holderId', 'The club has no such member.');
  const known = await tx.floralSource.findMany({
    where: { clubId, id: { in: floralShares.map((share) => share.floralSourceId) } },
    select: { id: true },
  });
  const unknown = floralShares.findIndex(
    ({ floralSourceId }) => !known.some(({ id }) => id === floralSourceId.toLowerCase()),
  );
  if (unknown >= 0) {
    throw invalidField(
      `#/floralShares/${unknown}/floralSourceId`,
      'The club has no such floral source.',
    );
  }
}
