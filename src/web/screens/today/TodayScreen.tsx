import { SegmentedControl } from '@mantine/core';
import { useState } from 'react';
import { text } from '../../text';
import { Cautions } from '../../ui/Cautions';
import { Loaded } from '../../ui/Loaded';
import { Screen } from '../../ui/Screen';
import { KeptForYou } from '../room/KeptForYou';
import { FirstSteps } from './FirstSteps';
import { HoneySheet } from './HoneySheet';
import { MixingClock } from './MixingClock';
import { News } from './News';
import { TaskList } from './TaskList';
import { useToday, type Whose } from './today-queries';
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
          <div className="today">
            <News />
            <div className="today-doing">
              <KeptForYou />
              <UndoBar items={found.undo} />
              <FirstSteps />
              <TaskList tasks={found.tasks} namesMember={whose === 'all'} />
            </div>
            <div className="today-rest">
              <HoneySheet honey={found.honey} whose={whose} />
              <MixingClock />
              <Cautions />
            </div>
          </div>
        )}
      </Loaded>
    </Screen>
  );
}
