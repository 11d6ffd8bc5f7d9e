import { Button, Group, NativeSelect, SegmentedControl } from '@mantine/core';
import { useState } from 'react';
import { Link } from 'wouter';
import { useClub } from '../../api/club';
import { text } from '../../text';
import { Empty } from '../../ui/Empty';
import { Loaded } from '../../ui/Loaded';
import { Screen } from '../../ui/Screen';
import { useTimes } from '../../ui/times';
import { useUnitWords } from '../../ui/units';
import { useBatches, type BatchSummary, type Stage } from './batch-queries';
import { StageMark } from './StageMark';

const shownAtFirst = 50;

/** The club's batches, the newest first. */
export function Batches() {
  const { memberId } = useClub();
  const [whose, setWhose] = useState('mine');
  const [stage, setStage] = useState('');
  const batches = useBatches({
    ...(whose === 'mine' && { memberId }),
    ...(stage !== '' && { stage: stage as Stage }),
  });
  return (
    <Screen title={text.batches.title}>
      <Group>
        <SegmentedControl
          aria-label={text.batches.title}
          value={whose}
          onChange={setWhose}
          data={[
            { value: 'mine', label: text.batches.mine },
            { value: 'all', label: text.batches.everybodys },
          ]}
        />
        <NativeSelect
          aria-label={text.batches.any}
          value={stage}
          onChange={(event) => setStage(event.currentTarget.value)}
          data={[
            { value: '', label: text.batches.any },
            ...Object.entries(text.batches.stages).map(([value, label]) => ({ value, label })),
          ]}
        />
        <Button component={Link} href="/batches/new" ml="auto">
          {text.batches.plan}
        </Button>
      </Group>
      <Loaded query={batches}>
        {(items) =>
          items.length === 0 ? (
            <Empty>{stage === '' ? text.batches.none : text.batches.noneLike}</Empty>
          ) : (
            <BatchList items={items} namesMember={whose !== 'mine'} />
          )
        }
      </Loaded>
    </Screen>
  );
}

function BatchList({ items, namesMember }: { items: BatchSummary[]; namesMember: boolean }) {
  const [shown, setShown] = useState(shownAtFirst);
  const { mass } = useUnitWords();
  const times = useTimes();
  return (
    <>
      <ul className="rows">
        {items.slice(0, shown).map((batch) => (
          <li key={batch.id}>
            <Link href={`/batches/${batch.id}`} className="row">
              <span>
                <strong>{batch.name}</strong>
                <span className="soft">
                  {namesMember && `${batch.member.name} · `}
                  {mass(batch.honeyMassKg)}
                </span>
              </span>
              <span className="row-end">
                <StageMark stage={batch.stage} />
                {batch.stageAt !== null && (
                  <span className="soft numbers">{times.day(batch.stageAt)}</span>
                )}
              </span>
            </Link>
          </li>
        ))}
      </ul>
      {items.length > shown && (
        <Button variant="default" onClick={() => setShown(shown + 100)}>
          {text.frame.more}
        </Button>
      )}
    </>
  );
}
