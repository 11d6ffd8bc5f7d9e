import { createHash } from 'node:crypto';
import type { Service } from './service';

/** Runs the work while, as far as the service can see, an earlier request of that person with that Idempotency-Key still runs. */
export async function whileItRuns(
  service: Service,
  request: { personId: string; route: string; key: string },
  work: () => Promise<void>,
): Promise<void> {
  const { personId, route, key } = request;
  const lock = createHash('sha256').update(`${personId} ${route} ${key}`).digest();
  await service.prisma.$transaction(async (tx) => {
    await tx.$executeRaw`select pg_advisory_xact_lock(${lock.readBigInt64BE()})`;
    await work();
  });
}
