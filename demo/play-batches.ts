import { seedSeller, sources } from './club';
import type { EnteredClub } from './entered';
import { LotsToCome } from './lots-to-come';
import {
  creamedOf,
  seedOf,
  type BatchRecord,
  type LoanRecord,
  type LoanReturnRecord,
  type LotMass,
  type Season,
  type StepRecord,
} from './records';

interface Made {
  id: string;
}

/** Brings in the honey of all members, and the seed that they bought. */
export async function bringIn(club: EnteredClub, season: Season): Promise<void> {
  const honey = season.honeyLots.map(async (lot) => {
    const made = await club.as(lot.member).post<Made>(`${club.path}/lots`, lot.ref, {
      kind: 'honey',
      name: `${lot.ref} ${lot.source} ${lot.extractedOn.slice(0, 4)}`,
      massKg: lot.massG / 1000,
      floralShares: [{ floralSourceId: club.id(lot.source), percent: 100 }],
      originShares: [{ countryCode: 'AT', percent: 100 }],
      origin: 'An invented apiary above Upper Brummelwick',
      extractedOn: lot.extractedOn,
      moisturePercent: lot.moisturePercent,
    });
    club.entered(lot.ref, made.id);
  });
  const bought = season.boughtSeed.map(async (lot) => {
    const made = await club.as(lot.member).post<Made>(`${club.path}/lots`, lot.ref, {
      kind: 'seed',
      name: `${lot.ref} ${lot.source}, bought`,
      massKg: lot.massG / 1000,
      floralShares: [{ floralSourceId: club.id(lot.source), percent: 100 }],
      originShares: [{ countryCode: 'AT', percent: 100 }],
      origin: seedSeller,
      grain: 'fine',
    });
    club.entered(lot.ref, made.id);
  });
  await Promise.all([...honey, ...bought]);
}

export async function planBatches(club: EnteredClub, { batches }: Season): Promise<void> {
  await Promise.all(
    batches.map(async ({ ref, member, source, honey }) => {
      const body = { name: `${ref} ${source}`, honey: massesOf(club, honey) };
      const { id } = await club.as(member).post<Made>(`${club.path}/batches`, ref, body);
      club.entered(ref, id);
    }),
  );
}

/**
 * Files what was done to the batches and what was seen of them, several at a time. A batch whose seed comes from another waits until
 * that one is potted, and a loan until there is something to lend or to give back.
 */
export async function tellStories(club: EnteredClub, season: Season): Promise<void> {
  const lots = new LotsToCome();
  for (const { ref } of season.boughtSeed) lots.isThere(ref);
  await Promise.all([
    ...season.loans.map((loan) => lend(club, loan, lots)),
    ...season.returns.map((part) => giveBack(club, part, lots)),
    ...season.batches.map((batch) => tellStory(club, batch, lots)),
  ]);
  for (const { loan, lender, note } of season.waived) {
    const address = `${club.path}/loans/${club.id(loanOf(loan))}/forgiveness`;
    await club.as(lender).post(address, `${loan}-waived`, { note });
  }
  for (const { ref, lot, member, kind, massG, at, note } of season.withdrawals) {
    const address = `${club.path}/lots/${club.id(lot)}/withdrawals`;
    await club.as(member).post(address, ref, { kind, massKg: massG / 1000, at, note });
  }
}

async function lend(club: EnteredClub, loan: LoanRecord, lots: LotsToCome): Promise<void> {
  await lots.come([loan.fromLot]);
  const { id, toLot } = await club
    .as(loan.lender)
    .post<Made & { toLot: Made }>(`${club.path}/loans`, loan.ref, {
      lotId: club.id(loan.fromLot),
      borrowerId: club.id(loan.borrower),
      massKg: loan.massG / 1000,
      at: loan.at,
      dueOn: loan.dueOn,
    });
  club.entered(loanOf(loan.ref), id);
  club.entered(loan.ref, toLot.id);
  lots.isThere(loan.ref);
}

async function giveBack(
  club: EnteredClub,
  { ref, loan, fromLot, borrower, massG, at }: LoanReturnRecord,
  lots: LotsToCome,
): Promise<void> {
  await lots.come([loan, fromLot]);
  const address = `${club.path}/loans/${club.id(loanOf(loan))}/returns`;
  const body = { lotId: club.id(fromLot), massKg: massG / 1000, at };
  await club.as(borrower).post(address, ref, body);
}

/** The ref of the loan itself: the loan's ref is that of the lot that the borrower got. */
function loanOf(ref: string): string {
  return `${ref}-loan`;
}

async function tellStory(club: EnteredClub, batch: BatchRecord, lots: LotsToCome): Promise<void> {
  await lots.come(batch.seed.map(({ lot }) => lot));
  const address = `${club.path}/batches/${club.id(batch.ref)}`;
  const owner = club.as(batch.member);
  const file = async (step: StepRecord): Promise<void> => {
    const body = { ...step, ...moreOf(club, batch, step.kind) };
    const made = await owner.post<{ madeLotId: string | null }>(
      `${address}/steps`,
      `${batch.ref}-${step.kind}`,
      body,
    );
    if (made.madeLotId === null) return;
    const ref = step.kind === 'seeded' ? creamedOf(batch.ref) : seedOf(batch.ref);
    club.entered(ref, made.madeLotId);
    lots.isThere(ref);
  };

  for (const step of batch.steps.filter(({ kind }) => kind !== 'abandoned')) await file(step);
  for (const [index, { member, ...look }] of batch.looks.entries()) {
    await club.as(member).post(`${address}/setting-checks`, `${batch.ref}-look-${index}`, look);
  }
  for (const step of batch.steps.filter(({ kind }) => kind === 'abandoned')) await file(step);
}

/** What stirring in and potting move, besides the time at which it was done. */
function moreOf(club: EnteredClub, batch: BatchRecord, kind: StepRecord['kind']): object {
  if (kind === 'seeded') {
    return { seed: massesOf(club, batch.seed), lossKg: batch.lossAtSeedingG / 1000 };
  }
  if (kind !== 'potted' || batch.potting === null) return {};
  const { pots, seedPutByG, lossG } = batch.potting;
  const grain = sources.find(({ name }) => name === batch.source)?.grain ?? 'medium';
  return {
    pots: pots.map(({ netMassG, count }) => ({ netMassKg: netMassG / 1000, count })),
    lossKg: lossG / 1000,
    ...(seedPutByG > 0 && { seedPutByKg: seedPutByG / 1000, seedGrain: grain }),
  };
}

function massesOf(club: EnteredClub, parts: readonly LotMass[]) {
  return parts.map(({ lot, massG }) => ({ lotId: club.id(lot), massKg: massG / 1000 }));
}
