import { Button, Group, NativeSelect, Text } from '@mantine/core';
import { useState } from 'react';
import { text } from '../../text';
import '../../styles/seed.css';
import { Empty } from '../../ui/Empty';
import { useIsWide } from '../../ui/is-wide';
import { Loaded } from '../../ui/Loaded';
import { useFloralSources } from '../club/club-queries';
import { useSeedShelf, type ShelfSeed } from './seed-queries';
import { inOrder, type ShelfKey, type ShelfOrder } from './shelf-order';
import { ShelfCards } from './ShelfCards';
import { ShelfTable } from './ShelfTable';

const words = text.seed;
const shownAtFirst = 30;

/** All seed of which something is left: whose, how much, what is in it, how its batches became, where it stands. */
export function Shelf() {
  const [whose, setWhose] = useState<'everybodys' | 'mine'>('everybodys');
  const [floralSourceId, setSource] = useState('');
  const [order, setOrder] = useState<ShelfOrder>({ by: 'free', isTurned: false });
  const sources = useFloralSources();
  const shelf = useSeedShelf({ mine: whose === 'mine', floralSourceId });
  const choose = (by: ShelfKey) =>
    setOrder({ by, isTurned: order.by === by ? !order.isTurned : false });
  const isWide = useIsWide();
  const isNarrowed = whose === 'mine' || floralSourceId !== '';
  return (
    <>
      <details className="no-print" open={isWide}>
        <summary>{words.narrow}</summary>
        <Group align="flex-end">
          <NativeSelect
            label={words.whose}
            value={whose}
            data={[
              { value: 'everybodys', label: words.everybodys },
              { value: 'mine', label: words.mine },
            ]}
            onChange={(event) =>
              setWhose(event.currentTarget.value === 'mine' ? 'mine' : 'everybodys')
            }
          />
          <NativeSelect
            label={words.withSource}
            value={floralSourceId}
            data={[
              { value: '', label: words.anySource },
              ...(sources.data ?? []).map(({ id, name }) => ({ value: id, label: name })),
            ]}
            onChange={(event) => setSource(event.currentTarget.value)}
          />
          <NativeSelect
            label={words.sortBy}
            value={order.by}
            data={Object.entries(words.orders).map(([value, label]) => ({ value, label }))}
            onChange={(event) =>
              setOrder({ by: event.currentTarget.value as ShelfKey, isTurned: false })
            }
          />
        </Group>
      </details>
      <Loaded query={shelf}>
        {(lots) =>
          lots.length === 0 ? (
            <Empty>{isNarrowed ? words.noneLike : words.none}</Empty>
          ) : (
            <Standing lots={lots} order={order} onOrder={choose} />
          )
        }
      </Loaded>
    </>
  );
}

function Standing({
  lots,
  order,
  onOrder,
}: {
  lots: ShelfSeed[];
  order: ShelfOrder;
  onOrder: (by: ShelfKey) => void;
}) {
  const [shown, setShown] = useState(shownAtFirst);
  const isWide = useIsWide();
  const first = inOrder(lots, order).slice(0, shown);
  return (
    <>
      {isWide ? (
        <ShelfTable lots={first} order={order} onOrder={onOrder} />
      ) : (
        <ShelfCards lots={first} />
      )}
      <Group>
        <Text className="soft">{words.shown(first.length, lots.length)}</Text>
        {lots.length > shown && (
          <Button variant="default" onClick={() => setShown(shown + shownAtFirst)}>
            {text.frame.more}
          </Button>
        )}
      </Group>
      <Text className="soft" size="sm">
        {words.textureMeaning}
      </Text>
    </>
  );
}
