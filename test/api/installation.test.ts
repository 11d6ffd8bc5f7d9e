import { dress } from '../../src/app';
import { readSettings } from '../../src/platform/settings';
import { anAccount } from '../support/account';
import { useService } from '../support/service';
import { nobody } from '../support/world';

const service = useService();

test('whoever stands at the door is told whether anybody is here yet', async () => {
  const before = await nobody(service).get('/installation').expect(200);
  await anAccount(service);
  const after = await nobody(service).get('/installation').expect(200);

  expect([before.body, after.body]).toEqual([
    { isEmpty: true, demo: null },
    { isEmpty: false, demo: null },
  ]);
});

test('no variable of the environment makes a demo of it', () => {
  expect(readSettings({ DEMO: 'true', demo: 'true' }).demo).toBeNull();
});

test('the demo tells as whom to look around: those of its people who are there, and nobody else', async () => {
  const { email } = await anAccount(service);
  await anAccount(service);
  const settings = {
    ...readSettings({ LOG_LEVEL: 'silent' }),
    demo: {
      clubName: 'An invented club',
      password: 'seven slow bees hum',
      accounts: [
        { name: 'Mira', email, role: 'steward' as const },
        { name: 'Joss', email: 'not-yet@example.org', role: 'member' as const },
      ],
    },
  };
  const demo = await dress(service.database.url, settings);
  try {
    await demo.listen(0, '127.0.0.1');
    const answer = await fetch(`${await demo.getUrl()}/api/v1/installation`);
    expect(await answer.json()).toEqual({
      isEmpty: false,
      demo: {
        clubName: 'An invented club',
        password: 'seven slow bees hum',
        accounts: [{ name: 'Mira', email, role: 'steward' }],
      },
    });
  } finally {
    await demo.close();
  }
});
