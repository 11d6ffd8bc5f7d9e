import { Text } from '@mantine/core';
import { text } from '../../text';
import { Loaded } from '../../ui/Loaded';
import type { Batch } from '../batches/batch-queries';
import { LotMasses, type LotMass } from '../batches/LotMasses';
import { useLotsWithMass } from '../lots/lot-queries';
import { useFittingForBatch } from './seed-queries';
import { SeedPicks } from './SeedPicks';

interface Choice {
  batch: Pick<Batch, 'id' | 'member'>;
  value: LotMass[];
  onChange: (value: LotMass[]) => void;
}

/** The seed that is stirred into a batch, the best first. Where that list cannot be had, the seed at hand: the honey does not wait. */
export function SeedForBatch({ batch, value, onChange }: Choice) {
  const fitting = useFittingForBatch(batch.id);
  if (fitting.isError && fitting.data === undefined) {
    return <AtHand batch={batch} value={value} onChange={onChange} />;
  }
  return (
    <Loaded query={fitting}>
      {(found) =>
        found.items.length === 0 ? (
          <Text>{text.batches.noSeed}</Text>
        ) : (
          <SeedPicks fitting={found} value={value} onChange={onChange} />
        )
      }
    </Loaded>
  );
}

function AtHand({ batch, value, onChange }: Choice) {
  const lots = useLotsWithMass('seed', batch.member.id);
  return (
    <Loaded query={lots}>
      {(items) => (
        <>
          <Text className="soft">{text.seed.noFittingList}</Text>
          <LotMasses lots={items} value={value} onChange={onChange} />
        </>
      )}
    </Loaded>
  );
}
