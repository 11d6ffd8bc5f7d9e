import { Button, Group, Title } from '@mantine/core';
import { useState } from 'react';
import { Link } from 'wouter';
import { text } from '../../text';
import { Empty } from '../../ui/Empty';
import { TaskCard } from './TaskCard';
import type { Task } from './today-queries';

const words = text.today;

/** What is late, what is to be done now, what comes next. A long list of one hides none of the others. */
export function TaskList({ tasks, namesMember }: { tasks: Task[]; namesMember: boolean }) {
  if (tasks.length === 0) {
    return (
      <div className="nothing-to-do">
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
      </div>
    );
  }
  const parts = [
    { title: words.late, items: oneOfEachKindFirst(tasks.filter(({ late }) => late)), most: 2 },
    { title: words.now, items: tasks.filter(({ late, isOpen }) => !late && isOpen), most: 8 },
    { title: words.next, items: tasks.filter(({ late, isOpen }) => !late && !isOpen), most: 8 },
  ];
  return parts
    .filter(({ items }) => items.length > 0)
    .map((part) => <Part key={part.title} {...part} namesMember={namesMember} />);
}

/** So that forty overdue loans do not hide the pail that is too warm. */
function oneOfEachKindFirst(tasks: Task[]): Task[] {
  const firsts = tasks.filter(
    (task, index) => tasks.findIndex(({ kind }) => kind === task.kind) === index,
  );
  const loansLast = [...firsts].sort(
    (one, other) => Number(one.kind === 'return-loan') - Number(other.kind === 'return-loan'),
  );
  return [...loansLast, ...tasks.filter((task) => !firsts.includes(task))];
}

function Part({
  title,
  items,
  most,
  namesMember,
}: {
  title: string;
  items: Task[];
  most: number;
  namesMember: boolean;
}) {
  const [isAll, setAll] = useState(false);
  return (
    <section aria-label={title}>
      <Title order={2} size="h4" mb="xs">
        {title}
      </Title>
      <div className="tasks">
        {(isAll ? items : items.slice(0, most)).map((task) => (
          <TaskCard
            key={`${task.kind}${task.batch?.id ?? ''}${task.bookingId ?? ''}${task.loanId ?? ''}`}
            task={task}
            namesMember={namesMember}
          />
        ))}
      </div>
      {!isAll && items.length > most && (
        <Button mt="xs" variant="default" className="on-paper" onClick={() => setAll(true)}>
          {words.more(items.length - most, title)}
        </Button>
      )}
    </section>
  );
}
