import { useService } from '../support/service';
import { nobody } from '../support/world';

const service = useService();

test('of eight who are the first of an installation at once, one gets in without an invitation', async () => {
  const signUps = Array.from({ length: 8 }, (_, number) =>
    nobody(service).post('/people', {
      name: `Nr ${number}`,
      email: `nr${number}@example.org`,
      password: 'slow spoon on a Tuesday',
    }),
  );

  // Until all of them have seen that nobody is there, nobody can be entered.
  const { sent } = await service.prisma.$transaction(
    async (tx) => {
      await tx.$executeRaw`lock table person in share row exclusive mode`;
      const underWay = Promise.all(signUps.map((signUp) => signUp.then((answer) => answer)));
      await new Promise((resolve) => setTimeout(resolve, 2_000));
      return { sent: underWay };
    },
    { timeout: 10_000 },
  );

  const answers = await sent;
  expect(answers.map(({ status }) => status).sort()).toEqual([201, ...Array<number>(7).fill(403)]);
  expect(answers.find(({ status }) => status === 201)!.body.clubId).toBeNull();
  const refused = answers.find(({ status }) => status === 403)!;
  expect(refused.body.type).toBe('/problems/not-allowed');
  expect(refused.body.detail).toMatch(/invitationCode/);
  expect(await service.prisma.person.count()).toBe(1);
});
