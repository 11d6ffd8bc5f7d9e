import { Database } from '../../src/platform/database';
import { networkOf, TryLimit } from '../../src/platform/try-limit';
import { anAccount } from '../support/account';
import { useService } from '../support/service';
import { nobody } from '../support/world';

// Behind a proxy, so that requests can come from several addresses.
const service = useService({ TRUST_PROXY: 'true' });

beforeEach(async () => {
  await service.database.query('delete from rate_limit');
});

function signIn(email: string, password: string, from: string) {
  return nobody(service).post('/session', { email, password }).set('X-Forwarded-For', from);
}

async function inTens<Item, Answer>(items: Item[], work: (item: Item) => PromiseLike<Answer>) {
  const answers: Answer[] = [];
  for (let start = 0; start < items.length; start += 10) {
    answers.push(...(await Promise.all(items.slice(start, start + 10).map(work))));
  }
  return answers;
}

// IETF draft "RateLimit header fields for HTTP" (draft-ietf-httpapi-ratelimit-headers-11): lists of RFC 9651.
const policy = /^"sign-in";q=5;w=900$/;
const state = /^"sign-in";r=(\d+);t=(\d+)$/;

test('the sixth try after five failures has to wait, right as its password may be', async () => {
  const { email, password } = await anAccount(service);
  const left: number[] = [];
  for (let time = 1; time <= 5; time++) {
    const { headers } = await signIn(email, 'wrong', '203.0.113.1').expect(401);
    expect(headers['ratelimit-policy']).toMatch(policy);
    left.push(Number(state.exec(headers['ratelimit']!)![1]));
  }

  const { body, headers } = await signIn(email, password, '203.0.113.1').expect(429);

  expect(left).toEqual([4, 3, 2, 1, 0]);
  expect(body.type).toBe('/problems/too-many');
  const [, remaining, seconds] = state.exec(headers['ratelimit']!)!;
  expect(Number(remaining)).toBe(0);
  expect(Number(seconds)).toBeLessThanOrEqual(900);
  expect(Number(headers['retry-after'])).toBeGreaterThanOrEqual(Number(seconds));
});

test('the same holds for an e-mail that nobody has', async () => {
  for (let time = 1; time <= 5; time++) {
    await signIn('nobody@example.org', 'wrong', '203.0.113.1').expect(401);
  }
  await signIn('NOBODY@example.org', 'wrong', '203.0.113.1').expect(429);
});

test('twenty tries at once are no more than five tries', async () => {
  const { email } = await anAccount(service);
  const answers = await Promise.all(
    Array.from({ length: 20 }, () => signIn(email, 'wrong', '203.0.113.1')),
  );
  const statuses = answers.map(({ status }) => status);
  expect(statuses.filter((status) => status === 401)).toHaveLength(5);
  expect(statuses.filter((status) => status === 429)).toHaveLength(15);
});

test('a success costs no try, and does not bring back those that were lost', async () => {
  const { email, password } = await anAccount(service);
  await signIn(email, 'wrong', '203.0.113.1').expect(401);
  for (let time = 1; time <= 6; time++) {
    const { headers } = await signIn(email, password, '203.0.113.1').expect(201);
    expect(headers['ratelimit']).toMatch(/^"sign-in";r=4;/);
  }
});

test('tries are back when the quarter of an hour is over', async () => {
  const { email, password } = await anAccount(service);
  for (let time = 1; time <= 6; time++) await signIn(email, 'wrong', '203.0.113.1');
  await signIn(email, password, '203.0.113.1').expect(429);

  await service.database.query('update rate_limit set expire = expire - 900000');

  await signIn(email, password, '203.0.113.1').expect(201);
});

test('whoever fails at one address keeps nobody out at another', async () => {
  const { email, password } = await anAccount(service);
  for (let time = 1; time <= 6; time++) await signIn(email, 'wrong', '203.0.113.1');
  await signIn(email, password, '203.0.113.2').expect(201);
});

test('what a caller writes into X-Forwarded-For before the proxy does not give new tries', async () => {
  const { email, password } = await anAccount(service);
  for (let time = 1; time <= 5; time++) {
    await signIn(email, 'wrong', `198.51.100.${time}, 203.0.113.1`).expect(401);
  }
  await signIn(email, password, '198.51.100.6, 203.0.113.1').expect(429);
});

test('the addresses of one IPv6 network share their tries', async () => {
  const { email, password } = await anAccount(service);
  for (let time = 1; time <= 5; time++) {
    await signIn(email, 'wrong', `2001:db8:0:1::${time}`).expect(401);
  }
  await signIn(email, password, '2001:db8:0:1:ffff::1').expect(429);
  await signIn(email, password, '2001:db8:0:2::1').expect(201);
});

test('an attack from everywhere stops strangers, and never the member at a usual place', async () => {
  const { email, password } = await anAccount(service);
  await signIn(email, password, '203.0.113.200').expect(201);

  const attackers = Array.from({ length: 50 }, (_, number) => `198.51.100.${number}`);
  const answers = await inTens(attackers, (from) => signIn(email, 'wrong', from));

  expect(new Set(answers.map(({ status }) => status))).toEqual(new Set([401]));
  await signIn(email, password, '198.51.100.99').expect(429);
  await signIn(email, password, '203.0.113.200').expect(201);
});

test('one address that tries many accounts is stopped at a hundred failures in an hour', async () => {
  const { email, password } = await anAccount(service);
  const names = Array.from({ length: 100 }, (_, number) => `nr${number}@example.org`);
  const answers = await inTens(names, (name) => signIn(name, 'wrong', '203.0.113.1'));

  expect(new Set(answers.map(({ status }) => status))).toEqual(new Set([401]));
  const { headers } = await signIn(email, password, '203.0.113.1').expect(429);
  expect(Number(headers['retry-after'])).toBeGreaterThan(900);
  await signIn(email, password, '203.0.113.2').expect(201);
}, 30_000);

test('neither e-mail nor address is kept readably', async () => {
  const { email } = await anAccount(service);
  await signIn(email, 'wrong', '203.0.113.1').expect(401);
  const keys = await service.database.query<{ key: string }>('select key from rate_limit');
  expect(keys.length).toBeGreaterThan(0);
  expect(JSON.stringify(keys)).not.toMatch(/@|203\.0\.113/);
});

test('copies of the service share a count, and a new copy knows it', async () => {
  const copies = [1, 2, 3].map(() => new Database(service.database.url, { poolSize: 2 }));
  const [first, second, restarted] = copies.map((copy) => new TryLimit(copy, 'shared', 4, 60));
  try {
    expect((await first!.take('key')).left).toBe(3);
    expect((await second!.take('key')).left).toBe(2);
    expect((await first!.take('key')).left).toBe(1);
    expect((await second!.take('key')).left).toBe(0);
    expect(await restarted!.take('key')).toMatchObject({ isOver: true, left: 0 });
    expect((await restarted!.take('another key')).isOver).toBe(false);
  } finally {
    await Promise.all(copies.map((copy) => copy.onApplicationShutdown()));
  }
});

test.each([
  ['203.0.113.7', '203.0.113.7'],
  ['::ffff:203.0.113.7', '203.0.113.7'],
  ['2001:db8:1:2:3:4:5:6', '2001:db8:1:2'],
  ['2001:0DB8:0001::6', '2001:db8:1:0'],
  ['::1', '0:0:0:0'],
  ['fe80::1%eth0', 'fe80:0:0:0'],
])('tries from %s are counted for %s', (address, network) => {
  expect(networkOf(address)).toBe(network);
});
