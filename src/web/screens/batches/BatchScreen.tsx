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
import { nextStepsOf } from './next-steps';
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
          <Parts batch={found} />
          <Cautions />
        </Screen>
      )}
    </Loaded>
  );
}

/** What matters most at its stage comes first: until it is stirred how warm it is, from then on when it has set. */
function Parts({ batch }: { batch: Batch }) {
  const { canLook } = nextStepsOf(batch.stage);
  const forecast = batch.stage !== 'abandoned' && <ForecastSheet batchId={batch.id} />;
  const looks = (canLook || batch.checks.length > 0) && <Looks batch={batch} />;
  return (
    <div className="columns">
      {canLook ? (
        <>
          <div>
            {forecast}
            {looks}
            <Made batch={batch} />
            <InIt batch={batch} />
          </div>
          <div>
            <TemperatureSheet batch={batch} />
            <Done batch={batch} />
            <HeatSheet batchId={batch.id} />
          </div>
        </>
      ) : (
        <>
          <div>
            <TemperatureSheet batch={batch} />
            <Done batch={batch} />
            {looks}
          </div>
          <div>
            <InIt batch={batch} />
            {forecast}
            <HeatSheet batchId={batch.id} />
            <Made batch={batch} />
          </div>
        </>
      )}
    </div>
  );
}

function Troubles({ batch }: { batch: Batch }) {
  return batch.troubles.map((trouble) => (
    <Alert
      key={trouble}
      color="red"
      variant="light"
      className="is-trouble"
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
                {[
                  step.recordedBy.name === batch.member.name
                    ? ''
                    : text.batches.by(step.recordedBy.name),
                  step.note,
                ]
                  .filter((part) => part !== '')
                  .join(' · ')}
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
