import { Text } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { Link } from 'wouter';
import { answer, api } from '../../api/client';
import { useClub } from '../../api/club';
import { text } from '../../text';
import { Loaded } from '../../ui/Loaded';
import { Sheet } from '../../ui/Sheet';
import { useTimes } from '../../ui/times';
import { useUnitWords } from '../../ui/units';
import type { Batch } from './batch-queries';

const words = text.batches;

type Creamed = NonNullable<Batch['creamed']>;

/** What a batch made, what became of all of it, and where it stands. */
export function Made({ batch }: { batch: Batch }) {
  const { mass } = useUnitWords();
  const { creamed, seedPutBy } = batch;
  if (creamed === null) return null;
  return (
    <Sheet title={words.made}>
      <Parts creamed={creamed} putByKg={seedPutBy?.massKg ?? 0} />
      {batch.pots.length > 0 && (
        <ul className="plain-list above-rest">
          {batch.pots.map(({ netMassKg, count }) => (
            <li key={netMassKg}>{words.potted(count, mass(netMassKg))}</li>
          ))}
        </ul>
      )}
      {seedPutBy !== null && (
        <Text>
          <Link href={`/lots/${seedPutBy.lotId}`}>{words.putBy(mass(seedPutBy.massKg))}</Link>
        </Text>
      )}
      <Text>{words.remaining(mass(creamed.remainingMassKg))}</Text>
      <Places batchId={batch.id} />
    </Sheet>
  );
}

/** All that went in, to the gram: potted, put by, used, lent, lost and left add up to it. */
function Parts({ creamed, putByKg }: { creamed: Creamed; putByKg: number }) {
  const { mass } = useUnitWords();
  // Lost when the seed was stirred in, and later.
  const lostKg = creamed.lostMassKg + creamed.inputMassKg - creamed.initialMassKg;
  const parts = [
    {
      name: words.madeParts.potted,
      massKg: creamed.pottedMassKg,
      colour: 'var(--mantine-color-comb-4)',
    },
    { name: words.madeParts.seedPutBy, massKg: putByKg, colour: 'var(--seed)' },
    { name: words.madeParts.used, massKg: creamed.usedMassKg - putByKg, colour: 'var(--cool)' },
    { name: words.madeParts.lent, massKg: creamed.lentMassKg, colour: 'var(--warm)' },
    { name: words.madeParts.lost, massKg: lostKg, colour: 'var(--late)' },
    { name: words.madeParts.remaining, massKg: creamed.remainingMassKg, colour: 'var(--wax-line)' },
  ].filter(({ massKg }) => massKg > 0.0005);
  const wide = (massKg: number) => (100 * massKg) / creamed.inputMassKg;
  const before = (index: number) =>
    parts.slice(0, index).reduce((sum, { massKg }) => sum + wide(massKg), 0);
  return (
    <>
      <svg viewBox="0 0 100 8" className="picture" role="img" aria-label={words.madePicture}>
        {parts.map(({ name, massKg, colour }, index) => (
          <rect key={name} x={before(index)} width={wide(massKg)} height="7" fill={colour} />
        ))}
      </svg>
      <ul className="legend">
        {parts.map(({ name, massKg, colour }) => (
          <li key={name}>
            <svg width="14" height="14" aria-hidden>
              <rect width="14" height="14" rx="3" fill={colour} />
            </svg>
            {name} <span className="numbers">{mass(massKg)}</span>
          </li>
        ))}
      </ul>
    </>
  );
}

/** On which places the batch stands, or is booked to. */
function Places({ batchId }: { batchId: string }) {
  const { clubId } = useClub();
  const times = useTimes();
  const bookings = useQuery({
    queryKey: ['bookings', clubId, 'of-batch', batchId],
    queryFn: () =>
      answer(
        api.GET('/api/v1/clubs/{clubId}/bookings', {
          params: { path: { clubId }, query: { batchId, limit: 50 } },
        }),
      ),
  });
  return (
    <>
      <Text mt="sm" fw={600}>
        {words.standsIn}
      </Text>
      <Loaded query={bookings}>
        {({ items }) => {
          const ahead = items.filter(
            ({ endsAt, clearedAt, arrivedAt }) =>
              clearedAt === null && (Date.parse(endsAt) > Date.now() || arrivedAt !== null),
          );
          return ahead.length === 0 ? (
            <Text className="soft">{words.nowhere}</Text>
          ) : (
            <ul className="plain-list">
              {ahead.map(({ id, stationName, places, endsAt }) => (
                <li key={id}>
                  {words.places(stationName, places.join(', '), times.dayAndTime(endsAt))}
                </li>
              ))}
            </ul>
          );
        }}
      </Loaded>
    </>
  );
}
