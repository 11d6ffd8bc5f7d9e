import { anAccount, type Account } from './account';
import { signIn, type useBrowser, type Visitor } from './page';
import type { Service } from './service';
import type { ClubWorld } from './world';

export interface Somebody {
  account: Account;
  memberId: string;
  visitor: Visitor;
}

/** A member of that club, or a steward, with a browser: a phone's, unless told otherwise. */
export async function somebody(
  service: Service,
  browser: ReturnType<typeof useBrowser>,
  { clubId }: ClubWorld,
  role: 'member' | 'steward',
  width = 360,
): Promise<Somebody> {
  const account = await anAccount(service);
  const { id: memberId } = await service.prisma.member.create({
    data: { clubId, personId: account.personId, role },
  });
  const visitor = await browser.open({ width, height: 800 });
  await signIn(visitor, service, account);
  return { account, memberId, visitor };
}

/** What a field of a date and time takes for that instant, by the clock of the club. */
export function clubClock(at: Date): string {
  return at.toLocaleString('sv', { timeZone: 'Europe/Vienna' }).slice(0, 16).replace(' ', 'T');
}

/** Fills the one open form that asks from when until when. */
export async function chooseTimes({ page }: Visitor, from: Date, until: Date): Promise<void> {
  await page.getByLabel(/^From\s*\*?$/).fill(clubClock(from));
  await page.getByLabel(/^Until\s*\*?$/).fill(clubClock(until));
}
