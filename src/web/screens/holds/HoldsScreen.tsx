import { Text } from '@mantine/core';
import { Link } from 'wouter';
import { text } from '../../text';
import '../../styles/seed.css';
import { Cautions } from '../../ui/Cautions';
import { Loaded } from '../../ui/Loaded';
import { Screen } from '../../ui/Screen';
import { Sheet } from '../../ui/Sheet';
import { useTimes } from '../../ui/times';
import { useUnitWords } from '../../ui/units';
import { GoToMark } from '../seed/GoToMark';
import { SeedWays } from '../seed/SeedWays';
import { useDrills, useHolds, type Drill, type HoldSummary } from './hold-queries';
import { BranchReleases, OpenHold } from './OpenHold';

const words = text.holds;

/** All that is on hold in the club, what was released, and the traces that were practised. */
export function HoldsScreen() {
  const open = useHolds(true);
  const over = useHolds(false);
  const drills = useDrills();
  return (
    <Screen title={words.screen}>
      <SeedWays here="holds" />
      <div className="columns">
        <div>
          <Sheet title={words.open}>
            <Loaded query={open}>
              {(items) =>
                items.length === 0 ? (
                  <Text className="soft">{words.noneOpen}</Text>
                ) : (
                  <div className="tasks-one">
                    {items.map(({ id }) => (
                      <OpenHold key={id} id={id} />
                    ))}
                  </div>
                )
              }
            </Loaded>
          </Sheet>
          <Sheet>
            <Text mb="xs">{words.howTo}</Text>
            <GoToMark />
          </Sheet>
        </div>
        <div>
          <Sheet title={words.drills}>
            <Text className="soft">{words.drillsIntro}</Text>
            <Loaded query={drills}>{(items) => <Drills drills={items} />}</Loaded>
          </Sheet>
          <Sheet title={words.over}>
            <Loaded query={over}>{(items) => <Released holds={items} />}</Loaded>
          </Sheet>
        </div>
      </div>
      <Cautions />
    </Screen>
  );
}

function Released({ holds }: { holds: HoldSummary[] }) {
  const times = useTimes();
  if (holds.length === 0) return <Text className="soft">{words.noneOver}</Text>;
  return (
    <ul className="rows">
      {holds.map((hold) => (
        <li key={hold.id} className="released">
          <Link href={`/lots/${hold.lot.id}`}>{hold.lot.name}</Link>
          <Text>
            {hold.reason} {hold.evidence}
          </Text>
          <Text className="soft">
            {words.placedBy(hold.placedBy.name, times.date(hold.placedAt))}
          </Text>
          <BranchReleases hold={hold} />
          {hold.release !== null && (
            <Text>
              {words.released(hold.release.by.name, times.date(hold.release.at))}{' '}
              {hold.release.because} {hold.release.evidence}
            </Text>
          )}
        </li>
      ))}
    </ul>
  );
}

function Drills({ drills }: { drills: Drill[] }) {
  const times = useTimes();
  const { mass } = useUnitWords();
  if (drills.length === 0) return <Text className="soft">{words.noDrills}</Text>;
  return (
    <ul className="rows">
      {drills.map((drill) => (
        <li key={drill.id}>
          <Link href={`/lots/${drill.lot.id}/recall`} className="row">
            <span>
              {drill.lot.name}
              <span className="soft">
                {words.placedBy(drill.runBy.name, times.date(drill.at))} ·{' '}
                {words.drillReach(drill.lots, drill.holders)}
              </span>
            </span>
            <span className="row-end numbers">
              {words.milliseconds(drill.durationMs)}
              <span className={drill.isComplete ? 'soft' : 'late'}>
                {words.drillFound(mass(drill.foundKg), mass(drill.soughtKg))}
                {': '}
                {drill.isComplete ? words.complete : words.incomplete}
              </span>
            </span>
          </Link>
        </li>
      ))}
    </ul>
  );
}
