import type { Locator } from 'playwright-core';
import { withAPassword } from './account';
import { aLot, aSource } from './lots';
import { signIn, type useBrowser, type Visitor } from './page';
import type { Service } from './service';
import { aClub, type Actor, type ClubWorld } from './world';

/** A loan, as the API tells it. */
interface LoanSeen {
  id: string;
  state: string;
  massKg: number;
  owedMassKg: number;
  dueOn: string | null;
  note: string;
  endedBecause: string;
  fromLot: { id: string } | null;
}

interface LoanWorld {
  club: ClubWorld;
  /** The names of the two members. */
  ada: string;
  ben: string;
  /** Seed of that member's: its id. Four kilograms unless told otherwise. */
  seedOf: (actor: Actor, name: string, massKg?: number) => Promise<string>;
  /** Hands a kilogram of it over to Ben, unless told otherwise. */
  lentToBen: (lotId: string, massKg?: number) => Promise<void>;
  /** The one loan of the club. */
  theLoan: () => Promise<LoanSeen>;
  remainingKg: (lotId: string) => Promise<number>;
  /** A member with a phone, who looks at the loans. */
  visitorFor: (actor: Actor) => Promise<Visitor>;
  /** Reads the loans anew. */
  look: (visitor: Visitor) => Promise<void>;
}

/** A club with Ada and Ben, who lend each other seed on their phones. */
export async function aLoanWorld(
  service: Service,
  browser: ReturnType<typeof useBrowser>,
): Promise<LoanWorld> {
  const club = await aClub(service);
  const source = await aSource(service, club.clubId);
  const { path, ada } = club;
  const nameOf = async (actor: Actor) =>
    ((await actor.get('/people/me').expect(200)).body as { name: string }).name;
  const look = async ({ page }: Visitor) => {
    await page.goto(`${service.url}/seed/loans`, { waitUntil: 'networkidle' });
  };
  return {
    club,
    ada: await nameOf(club.ada),
    ben: await nameOf(club.ben),
    look,
    seedOf: async (actor, name, massKg = 4) => {
      const lotId = await aLot(actor, club, source, { kind: 'seed', massKg });
      await actor.change(`${path}/lots/${lotId}`, { name });
      return lotId;
    },
    lentToBen: async (lotId, massKg = 1) => {
      const at = new Date().toISOString();
      const borrowerId = club.ben.memberId;
      await ada.post(`${path}/loans`, { lotId, borrowerId, massKg, at }).expect(201);
    },
    theLoan: async () => {
      const { body } = await ada.get(`${path}/loans`).expect(200);
      const { items } = body as { items: LoanSeen[] };
      expect(items).toHaveLength(1);
      return items[0]!;
    },
    remainingKg: async (lotId) => {
      const { body } = await ada.get(`${path}/lots/${lotId}`).expect(200);
      return (body as { remainingMassKg: number }).remainingMassKg;
    },
    visitorFor: async ({ personId }) => {
      const visitor = await browser.open();
      await signIn(visitor, service, await withAPassword(service, personId));
      await look(visitor);
      return visitor;
    },
  };
}

export async function press({ page }: Visitor, name: string): Promise<void> {
  await page.getByRole('button', { name, exact: true }).first().click();
}

/** The part of the screen under that heading. */
export function part({ page }: Visitor, title: string): Locator {
  return page.locator('.sheet').filter({ has: page.getByRole('heading', { name: title }) });
}
