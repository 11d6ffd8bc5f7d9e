import { fillRoom } from './fill-room.mjs';

const warmUps = 10;
const asked = 60;
const dayMs = 86_400_000;

/** How long somebody waits for a plan of a whole run in a full room: one after the other, so that nothing but the plan is measured. */
export async function measurePlans(serviceUrl, databaseUrl, club) {
  const { honeyId, count, ahead } = await fillRoom(databaseUrl, club);
  const plan = async (index) => {
    const began = performance.now();
    const answer = await fetch(`${serviceUrl}/api/v1/clubs/${club.clubId}/plans`, {
      method: 'POST',
      headers: { authorization: `Bearer ${club.token}`, 'content-type': 'application/json' },
      body: JSON.stringify({
        name: 'Bench',
        // A few pails each time: from one to three.
        honey: [{ lotId: honeyId, massKg: 20 + 25 * (index % 3) }],
        latestPotDay: new Date(Date.now() + 40 * dayMs).toISOString().slice(0, 10),
      }),
    });
    const body = await answer.text();
    if (answer.status !== 201) throw new Error(`plan: ${answer.status} ${body}`);
    return performance.now() - began;
  };
  const first = await plan(0);
  for (let index = 0; index < warmUps; index++) await plan(index);
  const latencies = [];
  for (let index = 0; index < asked; index++) latencies.push(await plan(index));
  latencies.sort((a, b) => a - b);
  const at = (part) => latencies[Math.floor(part * (latencies.length - 1))].toFixed(0);
  console.log(
    `plan a run among ${count} bookings, ${ahead} of them ahead: median ${at(0.5)} ms, p95 ${at(0.95)} ms; the first, not warmed up, ${first.toFixed(0)} ms`,
  );
}
