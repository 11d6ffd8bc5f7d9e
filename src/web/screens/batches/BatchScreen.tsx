import { Alert, Button, Group, Text } from '@mantine/core';
import { Link, useParams } from 'wouter';
import { text } from '../../text';
import { Cautions } from '../../ui/Cautions';
import { Loaded } from '../../ui/Loaded';
import { Screen } from '../../ui/Screen';
import { Sheet } from '../../ui/Sheet';
import { useTimes } from '../../ui/times';
import { useUnitWords } from '../../ui/units';
import { useBatch, type Batch } from './batch-queries';
import { ForecastSheet } from './ForecastSheet';
import { Hand } from './Hand';
import { HeatSheet } from './HeatSheet';
import { InIt } from './InIt';
import { Looks } from './Looks';
import { Made } from './Made';
import { StageMark } from './StageMark';
import { TemperatureSheet } from './TemperatureSheet';

/** One batch: what comes next, how warm it was, what it cost, when it has set, what was done and what is in it. */
export function BatchScreen() {
  const { id } = useParams<{ id: string }>();
  const batch = useBatch(id);
  return (
    <Loaded query={batch}>
      {(found) => (
        <Screen title={found.name}>
          <Group>
            <StageMark stage={found.stage} />
            <Text className="soft">{found.member.name}</Text>
            <Button
              variant="subtle"
              className="no-print wide-only"
              ml="auto"
              onClick={() => window.print()}
            >
              {text.batches.print}
            </Button>
          </Group>
          {found.note !== '' && <Text>{found.note}</Text>}
          <Troubles batch={found} />
          <Hand batch={found} />
          <div className="columns">
            <div>
              <TemperatureSheet batch={found} />
              <Done batch={found} />
              {found.stage !== 'planned' && <Looks batch={found} />}
            </div>
            <div>
              {found.stage !== 'abandoned' && <ForecastSheet batchId={found.id} />}
              <HeatSheet batchId={found.id} />
              <InIt batch={found} />
              <Made batch={found} />
            </div>
          </div>
          <Cautions />
        </Screen>
      )}
    </Loaded>
  );
}

function Troubles({ batch }: { batch: Batch }) {
  return batch.troubles.map((trouble) => (
    <Alert
      key={trouble}
      color="red"
      variant="light"
      role="status"
      title={text.batches.troubles[trouble]}
    >
      {text.batches.troubleWords[trouble]}{' '}
      {trouble === 'on-hold' && batch.creamed !== null && (
        <Link href={`/lots/${batch.creamed.lotId}`}>{text.batches.heldLot}</Link>
      )}
    </Alert>
  ));
}

function Done({ batch }: { batch: Batch }) {
  const times = useTimes();
  const { temperature } = useUnitWords();
  return (
    <Sheet title={text.batches.done}>
      {batch.steps.length === 0 && <Text className="soft">{text.batches.nothingDone}</Text>}
      <ol className="rows">
        {batch.steps.map((step) => (
          <li key={step.id} className="row">
            <span>
              <strong>{text.batches.stages[step.kind]}</strong>
              <span className="soft">
                {text.batches.by(step.recordedBy.name)}
                {step.note !== '' && ` · ${step.note}`}
              </span>
            </span>
            <span className="row-end numbers">
              {times.dayAndTime(step.at)}
              {step.temperatureC !== null && (
                <span className="soft">{temperature(step.temperatureC)}</span>
              )}
            </span>
          </li>
        ))}
      </ol>
    </Sheet>
  );
}
