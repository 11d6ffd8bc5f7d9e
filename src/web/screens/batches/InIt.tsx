import { Text } from '@mantine/core';
import { useQueries } from '@tanstack/react-query';
import { Link } from 'wouter';
import { useClub } from '../../api/club';
import { text } from '../../text';
import { Sheet } from '../../ui/Sheet';
import { useUnitWords } from '../../ui/units';
import { ancestorsQuery } from '../lots/lot-queries';
import type { Batch } from './batch-queries';
import { decimals } from '../../ui/numbers';

const words = text.batches;

/** What went in: honey and seed, how much of each, what the bees worked, and of which generation the seed is. */
export function InIt({ batch }: { batch: Batch }) {
  const total = [...batch.honey, ...batch.seed].reduce((sum, { massKg }) => sum + massKg, 0);
  const seedKg = batch.seed.reduce((sum, { massKg }) => sum + massKg, 0);
  const isReserved = batch.creamed === null;
  const percent = (massKg: number) => decimals((100 * massKg) / total, 1);
  return (
    <Sheet
      title={words.inIt}
      aside={
        batch.creamed !== null && (
          <Link href={`/lots/${batch.creamed.lotId}`} className="no-print">
            {words.lineage}
          </Link>
        )
      }
    >
      {total > 0 && seedKg > 0 && (
        <svg
          viewBox="0 0 100 8"
          className="picture"
          role="img"
          aria-label={words.sharesPicture(percent(total - seedKg), percent(seedKg))}
        >
          <rect width="100" height="7" rx="1.5" fill="var(--mantine-color-comb-4)" />
          <rect
            x={100 - (100 * seedKg) / total}
            width={(100 * seedKg) / total}
            height="7"
            rx="1.5"
            fill="var(--seed)"
          />
        </svg>
      )}
      <LotRows title={words.honeyPart} lots={batch.honey} percent={percent} />
      {batch.seed.length > 0 && (
        <LotRows
          title={isReserved ? `${words.seedPart} (${words.reserved})` : words.seedPart}
          lots={batch.seed}
          percent={percent}
        />
      )}
      <SeedGenerations lotIds={batch.seed.map(({ lotId }) => lotId)} />
      <Text mt="md" fw={600}>
        {words.floral}
      </Text>
      <Text>
        {batch.floralShares
          .map(({ name, percent: share }) => `${name} ${words.share(decimals(share))}`)
          .join(', ')}
      </Text>
    </Sheet>
  );
}

function LotRows({
  title,
  lots,
  percent,
}: {
  title: string;
  lots: Batch['honey'];
  percent: (massKg: number) => string;
}) {
  const { mass } = useUnitWords();
  return (
    <>
      <Text mt="sm" fw={600}>
        {title}
      </Text>
      <ul className="rows">
        {lots.map(({ lotId, name, massKg }) => (
          <li key={lotId}>
            <Link href={`/lots/${lotId}`} className="row">
              <span>{name}</span>
              <span className="row-end numbers">
                {mass(massKg)}
                <span className="soft">{words.share(percent(massKg))}</span>
              </span>
            </Link>
          </li>
        ))}
      </ul>
    </>
  );
}

/** How many batches the seed has been through. */
function SeedGenerations({ lotIds }: { lotIds: string[] }) {
  const { clubId } = useClub();
  const found = useQueries({
    queries: lotIds
      .slice(0, 3)
      .map((id) => ({ ...ancestorsQuery(clubId, id), staleTime: 300_000 })),
  });
  const generations = new Set(found.flatMap(({ data }) => data?.generation ?? []));
  return [...generations].map((generation) => (
    <Text key={generation} className="soft">
      {words.seedGeneration(generation)}
    </Text>
  ));
}
