import { Button, Group, SegmentedControl, Title } from '@mantine/core';
import { useState } from 'react';
import { Link } from 'wouter';
import { text } from '../../text';
import { Cautions } from '../../ui/Cautions';
import { Empty } from '../../ui/Empty';
import { Loaded } from '../../ui/Loaded';
import { Screen } from '../../ui/Screen';
import { HoneySheet } from './HoneySheet';
import { MixingClock } from './MixingClock';
import { News } from './News';
import { TaskCard } from './TaskCard';
import { useToday, type Task, type Today, type Whose } from './today-queries';
import { UndoBar } from './UndoBar';

const words = text.today;

/** What to do now and next, each with one large action; what is late first. */
export function TodayScreen() {
  const [whose, setWhose] = useState<Whose>('mine');
  const today = useToday(whose);
  return (
    <Screen title={words.title}>
      <SegmentedControl
        aria-label={words.whose}
        value={whose}
        onChange={setWhose}
        w="fit-content"
        data={[
          { value: 'mine', label: words.mine },
          { value: 'all', label: words.all },
        ]}
      />
      <Loaded query={today}>
        {(found) => (
          <>
            <UndoBar items={found.undo} />
            <News />
            <Tasks today={found} namesMember={whose === 'all'} />
            <MixingClock />
            <HoneySheet honey={found.honey} whose={whose} />
            <Cautions />
          </>
        )}
      </Loaded>
    </Screen>
  );
}

function Tasks({ today: { tasks }, namesMember }: { today: Today; namesMember: boolean }) {
  if (tasks.length === 0) {
    return (
      <Empty
        action={
          <Group>
            <Button component={Link} href="/room/plan">
              {words.planRun}
            </Button>
            <Button component={Link} href="/room" variant="default">
              {words.toRoom}
            </Button>
          </Group>
        }
      >
        {words.nothing}
      </Empty>
    );
  }
  const parts: { title: string; items: Task[] }[] = [
    { title: words.late, items: tasks.filter(({ late }) => late) },
    { title: words.now, items: tasks.filter(({ late, isOpen }) => !late && isOpen) },
    { title: words.next, items: tasks.filter(({ late, isOpen }) => !late && !isOpen) },
  ];
  return parts
    .filter(({ items }) => items.length > 0)
    .map(({ title, items }) => (
      <section key={title} aria-label={title}>
        <Title order={2} size="h4" mb="xs">
          {title}
        </Title>
        <div className="tasks">
          {items.map((task) => (
            <TaskCard
              key={`${task.kind}${task.batch?.id ?? ''}${task.bookingId ?? ''}${task.loanId ?? ''}`}
              task={task}
              namesMember={namesMember}
            />
          ))}
        </div>
      </section>
    ));
}
