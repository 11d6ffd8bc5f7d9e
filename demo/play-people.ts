import { ApiRefusal, type ApiClient } from './api';
import { club, demoPassword, emailOf, founder, members, sources, type DemoMember } from './club';
import { EnteredClub } from './entered';

interface SignedIn {
  clubs: { clubId: string; clubName: string; memberId: string }[];
}

/**
 * The first person of an installation needs no invitation. False: somebody was the first before. Without Idempotency-Key, which would
 * bring back the answer of the last time.
 */
export async function signUpAsFirst(service: ApiClient): Promise<boolean> {
  try {
    await service.post('/people', null, accountOf(founder));
    return true;
  } catch (refused) {
    if (refused instanceof ApiRefusal && refused.code === 'not-allowed') return false;
    throw refused;
  }
}

/** The club with all its members and floral sources. */
export async function foundClub(service: ApiClient, name: string): Promise<EnteredClub> {
  const { caller } = await signIn(service, founder);
  const wish = { name, timeZone: club.timeZone };
  const { id } = await caller.post<{ id: string }>('/clubs', 'found-club', wish);
  const entered = new EnteredClub(`/clubs/${id}`, caller);
  const { clubs } = await caller.get<SignedIn>('/session');
  entered.memberJoined(founder.ref, caller, clubs[0]?.memberId ?? '');

  // One after the other, so that the list of members is in this order.
  for (const member of members.slice(1)) await join(service, entered, member);
  await Promise.all(
    sources.map(async ({ name: source, grain, sets, note }) => {
      const body = { name: source, grain, sets, note };
      const address = `${entered.path}/floral-sources`;
      const made = await caller.post<{ id: string }>(address, source, body);
      entered.entered(source, made.id);
    }),
  );
  return entered;
}

/** A steward hands out a code; whoever has it signs up into the club. */
async function join(service: ApiClient, entered: EnteredClub, member: DemoMember): Promise<void> {
  const { ref, role } = member;
  const { code } = await entered.founder.post<{ code: string }>(
    `${entered.path}/invitations`,
    `invite-${ref}`,
    { role },
  );
  await service.post('/people', `sign-up-${ref}`, { ...accountOf(member), invitationCode: code });
  const { caller, memberId } = await signIn(service, member);
  entered.memberJoined(ref, caller, memberId);
}

/** Signs in as a browser does, and there makes the token with which everything else is done. */
async function signIn(
  service: ApiClient,
  member: DemoMember,
): Promise<{ caller: ApiClient; memberId: string }> {
  const [browser, { clubs }] = await service.signIn<SignedIn>(emailOf(member), demoPassword);
  const { token } = await browser.post<{ token: string }>('/tokens', 'demo-token', {
    name: 'The demo',
    scopes: ['read', 'record', 'book', ...(member.role === 'steward' ? ['steward'] : [])],
    expiresInDays: 1,
  });
  return { caller: service.as({ token }), memberId: clubs[0]?.memberId ?? '' };
}

function accountOf(member: DemoMember) {
  return { name: member.name, email: emailOf(member), password: demoPassword };
}
