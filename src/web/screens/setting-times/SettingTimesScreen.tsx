import { Button, Checkbox, Group, List, NativeSelect, Text } from '@mantine/core';
import { lazy, Suspense, useState } from 'react';
import { useClub } from '../../api/club';
import { text } from '../../text';
import { Empty } from '../../ui/Empty';
import { Loaded } from '../../ui/Loaded';
import { Screen } from '../../ui/Screen';
import { Sheet } from '../../ui/Sheet';
import { GroupTable } from './GroupTable';
import { csvAddress, useSettingTimes, type By, type SettingTimes } from './setting-queries';

const words = text.settingTimes;
const Curves = lazy(async () => ({ default: (await import('./Curves')).Curves }));
const MedianDots = lazy(async () => ({ default: (await import('./MedianDots')).MedianDots }));

/** How fast the club's honeys set: in one sentence first, then the numbers, then the method. */
export function SettingTimesScreen() {
  const [by, setBy] = useState<By>('floralSource');
  const [adjust, setAdjust] = useState<string[]>([]);
  const found = useSettingTimes(by, adjust);
  return (
    <Screen title={words.title}>
      <Group align="flex-end">
        <NativeSelect
          label={words.by}
          value={by}
          data={Object.entries(words.groupings).map(([value, label]) => ({ value, label }))}
          onChange={(event) => setBy(event.currentTarget.value as By)}
        />
        <details className="no-print">
          <summary>{words.adjust}</summary>
          <Checkbox.Group aria-label={words.adjust} value={adjust} onChange={setAdjust}>
            <Group mt="xs">
              {Object.entries(words.adjustments)
                .filter(([name]) => name !== by)
                .map(([name, label]) => (
                  <Checkbox key={name} value={name} label={label} />
                ))}
            </Group>
          </Checkbox.Group>
        </details>
      </Group>
      <Loaded query={found}>
        {(times) =>
          times.all.batchCount === 0 ? (
            <Empty>{words.none}</Empty>
          ) : (
            <Answer times={times} by={by} adjust={adjust} />
          )
        }
      </Loaded>
    </Screen>
  );
}

function Answer({ times, by, adjust }: { times: SettingTimes; by: By; adjust: string[] }) {
  const { clubId } = useClub();
  return (
    <>
      <Text size="lg">{times.inWords}</Text>
      <Sheet title={words.dots}>
        <Suspense fallback={null}>
          <MedianDots times={times} />
        </Suspense>
        <Text size="sm" className="soft">
          {words.dotsHow}
        </Text>
      </Sheet>
      <Sheet title={words.table}>
        <GroupTable groups={times.groups} />
        <Text size="sm" className="soft" mt="xs">
          {words.tableHow}
        </Text>
        <Group mt="sm" className="no-print">
          <Button component="a" variant="default" href={csvAddress(clubId, by, adjust, 'groups')}>
            {words.csv}
          </Button>
          <Button component="a" variant="default" href={csvAddress(clubId, by, adjust, 'curve')}>
            {words.curvesCsv}
          </Button>
        </Group>
      </Sheet>
      <Sheet title={words.curves}>
        <Suspense fallback={null}>
          <Curves key={by} groups={times.groups} />
        </Suspense>
        <Text size="sm" className="soft" mt="xs">
          {words.curvesHow}
        </Text>
      </Sheet>
      {times.adjusted !== null && (
        <Sheet title={words.adjusted}>
          <Text>{times.adjusted.inWords}</Text>
          <List my="sm">
            {times.adjusted.groups.map(({ name, inWords }) => (
              <List.Item key={name}>{inWords}</List.Item>
            ))}
          </List>
          {times.adjusted.tests.map(({ covariate, inWords }) => (
            <Text key={covariate} className="soft">
              {inWords}
            </Text>
          ))}
        </Sheet>
      )}
      <Sheet title={words.ranking}>
        <Text>{times.ranking.inWords}</Text>
        {times.ranking.toldApart.length > 0 && (
          <details>
            <summary>{words.pairs}</summary>
            <List>
              {times.ranking.toldApart.map((pair) => (
                <List.Item key={pair}>{pair}</List.Item>
              ))}
            </List>
          </details>
        )}
      </Sheet>
      <details className="sheet">
        <summary>{words.method}</summary>
        {[
          times.method,
          times.comparison.method,
          times.ranking.method,
          times.adjusted?.method ?? '',
        ].map((method) => (
          <Text key={method} size="sm" mt="xs">
            {method}
          </Text>
        ))}
      </details>
    </>
  );
}
