import { performance } from 'node:perf_hooks';
import autocannon from 'autocannon';

/** How long others wait, with nothing else going on and while setting times are computed without a break. */
export async function compareWhileFitting(
  serviceUrl,
  { clubId, token },
  address,
  { connections, seconds },
) {
  const headers = { authorization: `Bearer ${token}` };
  const p99 = async () => {
    const { latency } = await autocannon({
      url: `${serviceUrl}${address}`,
      connections,
      duration: seconds,
      headers,
    });
    return latency.p99;
  };
  const alone = await p99();

  const fitting = { isOver: false, count: 0, longestMs: 0 };
  const fits = (async () => {
    // Another end of the time asked about is another set of batches: nothing is answered from what was kept.
    for (let hour = 0; !fitting.isOver; hour += 1) {
      const until = new Date(Date.UTC(2024, 3, 20, hour)).toISOString();
      const began = performance.now();
      const answer = await fetch(
        `${serviceUrl}/api/v1/clubs/${clubId}/setting-times?by=season&adjust=moisture,seedFraction&until=${until}`,
        { headers },
      );
      if (answer.status !== 200)
        throw new Error(`setting times: ${answer.status} ${await answer.text()}`);
      await answer.arrayBuffer();
      fitting.count += 1;
      fitting.longestMs = Math.max(fitting.longestMs, performance.now() - began);
    }
  })();
  const beside = await p99();
  fitting.isOver = true;
  await fits;
  console.log(
    `others wait (p99)            ${alone} ms alone, ${beside} ms while setting times are computed ` +
      `(${fitting.count} times, the longest ${(fitting.longestMs / 1000).toFixed(1)} s)`,
  );
}
