import { Button, Group, NativeSelect, SegmentedControl, TextInput } from '@mantine/core';
import { useDebouncedValue } from '@mantine/hooks';
import { useState } from 'react';
import { Link } from 'wouter';
import { useClub } from '../../api/club';
import { text } from '../../text';
import { Empty } from '../../ui/Empty';
import { Failure } from '../../ui/Failure';
import { Loaded } from '../../ui/Loaded';
import { Screen } from '../../ui/Screen';
import { useTimes } from '../../ui/times';
import { useUnitWords } from '../../ui/units';
import { useBatches, type BatchSummary, type Stage } from './batch-queries';
import { StageMark } from './StageMark';

/** The club's batches, the newest first: one's own or everybody's, by stage and by name. */
export function Batches() {
  const { memberId } = useClub();
  const [whose, setWhose] = useState('mine');
  const [stage, setStage] = useState('');
  const [typed, setTyped] = useState('');
  const [search] = useDebouncedValue(typed.trim(), 250);
  const batches = useBatches({
    ...(whose === 'mine' && { memberId }),
    ...(stage !== '' && { stage: stage as Stage }),
    ...(search !== '' && { search }),
  });
  const isNarrowed = stage !== '' || search !== '';
  return (
    <Screen title={text.batches.title}>
      <Group justify="space-between" gap="xs" className="batch-head">
        <SegmentedControl
          aria-label={text.batches.title}
          value={whose}
          onChange={setWhose}
          data={[
            { value: 'mine', label: text.batches.mine },
            { value: 'all', label: text.batches.everybodys },
          ]}
        />
        <Button component={Link} href="/batches/new">
          {text.batches.plan}
        </Button>
      </Group>
      <div className="finders">
        <TextInput
          type="search"
          label={text.batches.search}
          value={typed}
          onChange={(event) => setTyped(event.currentTarget.value)}
        />
        <NativeSelect
          label={text.batches.stage}
          value={stage}
          onChange={(event) => setStage(event.currentTarget.value)}
          data={[
            { value: '', label: text.batches.any },
            ...Object.entries(text.batches.stages).map(([value, label]) => ({ value, label })),
          ]}
        />
      </div>
      <Loaded query={batches}>
        {({ pages }) => {
          const items = pages.flatMap((page) => page.items);
          return items.length === 0 ? (
            <Empty
              action={
                !isNarrowed && (
                  <Button component={Link} href="/room/plan" variant="default">
                    {text.plan.title}
                  </Button>
                )
              }
            >
              {isNarrowed ? text.batches.noneLike : text.batches.none}
            </Empty>
          ) : (
            <>
              <ul className="rows batch-list" aria-busy={batches.isPlaceholderData}>
                {items.map((batch) => (
                  <li key={batch.id}>
                    <BatchRow batch={batch} namesMember={whose !== 'mine'} />
                  </li>
                ))}
              </ul>
              {batches.isFetchNextPageError && (
                <Failure error={batches.error} again={() => void batches.fetchNextPage()} />
              )}
              {batches.hasNextPage && (
                <Button
                  variant="default"
                  loading={batches.isFetchingNextPage}
                  onClick={() => void batches.fetchNextPage()}
                >
                  {text.frame.more}
                </Button>
              )}
            </>
          );
        }}
      </Loaded>
    </Screen>
  );
}

function BatchRow({ batch, namesMember }: { batch: BatchSummary; namesMember: boolean }) {
  const { mass } = useUnitWords();
  const times = useTimes();
  return (
    <Link href={`/batches/${batch.id}`} className="row">
      <span>
        <strong>{batch.name}</strong>
        <span className="soft">
          {namesMember && `${batch.member.name} · `}
          {mass(batch.honeyMassKg)}
        </span>
        {batch.troubles.length > 0 && (
          <strong className="late">
            {batch.troubles.map((trouble) => text.batches.troubles[trouble]).join(' · ')}
          </strong>
        )}
      </span>
      <span className="row-end">
        <StageMark stage={batch.stage} />
        {batch.stageAt !== null && <span className="soft numbers">{times.day(batch.stageAt)}</span>}
      </span>
    </Link>
  );
}
