import { Button, Group, Text } from '@mantine/core';
import { useState } from 'react';
import { Link, useParams } from 'wouter';
import { text } from '../../text';
import { Cautions } from '../../ui/Cautions';
import { Loaded } from '../../ui/Loaded';
import { Screen } from '../../ui/Screen';
import { Sheet } from '../../ui/Sheet';
import { useTimes } from '../../ui/times';
import { useUnitWords } from '../../ui/units';
import { useBatch, type Batch, type StepKind } from './batch-queries';
import { ForecastSheet } from './ForecastSheet';
import { HeatSheet } from './HeatSheet';
import { LookForm } from './LookForm';
import { Looks } from './Looks';
import { nextStepsOf } from './next-steps';
import { StageMark } from './StageMark';
import { StepForm } from './StepForm';

/** One batch: what comes next, what was done, what is in it, when it has set. */
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
          </Group>
          {found.note !== '' && <Text>{found.note}</Text>}
          <div className="columns">
            <div>
              <Next batch={found} />
              <Done batch={found} />
              {found.stage !== 'planned' && <Looks batch={found} />}
            </div>
            <div>
              {found.stage !== 'abandoned' && <ForecastSheet batchId={found.id} />}
              <InIt batch={found} />
              <HeatSheet batchId={found.id} />
            </div>
          </div>
          <Cautions />
        </Screen>
      )}
    </Loaded>
  );
}

function Next({ batch }: { batch: Batch }) {
  const [open, setOpen] = useState<StepKind | 'look' | null>(null);
  const [isOther, setOther] = useState(false);
  const close = () => setOpen(null);
  const { first, others, canLook } = nextStepsOf(batch.stage);
  if (first === null && !canLook) return null;
  return (
    <Sheet title={text.batches.next}>
      {open === null ? (
        <Group>
          {canLook && (
            <Button size="xl" onClick={() => setOpen('look')}>
              {text.batches.look}
            </Button>
          )}
          {first !== null && (
            <Button
              size="xl"
              variant={canLook ? 'default' : 'filled'}
              onClick={() => setOpen(first)}
            >
              {text.batches.does[first]}
            </Button>
          )}
          {isOther
            ? others.map((kind) => (
                <Button key={kind} size="lg" variant="default" onClick={() => setOpen(kind)}>
                  {text.batches.does[kind]}
                </Button>
              ))
            : others.length > 0 && (
                <Button variant="subtle" onClick={() => setOther(true)}>
                  {text.batches.other}
                </Button>
              )}
        </Group>
      ) : (
        <>
          {open === 'look' ? (
            <LookForm batch={batch} onDone={close} />
          ) : (
            <StepForm batch={batch} kind={open} onDone={close} />
          )}
          <Button mt="sm" variant="subtle" onClick={close}>
            {text.frame.cancel}
          </Button>
        </>
      )}
    </Sheet>
  );
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

function InIt({ batch }: { batch: Batch }) {
  const { mass } = useUnitWords();
  const { creamed, seedPutBy } = batch;
  return (
    <Sheet title={text.batches.inIt}>
      <ul className="rows">
        {[...batch.honey, ...batch.seed].map(({ lotId, name, massKg }) => (
          <li key={lotId}>
            <Link href={`/lots/${lotId}`} className="row">
              {name}
              <span className="numbers">{mass(massKg)}</span>
            </Link>
          </li>
        ))}
      </ul>
      <Text mt="sm" className="soft">
        {batch.floralShares
          .map(({ name, percent }) => `${name} ${percent.toLocaleString()} %`)
          .join(', ')}
      </Text>
      {creamed !== null && (
        <>
          <Text mt="md" fw={600}>
            {text.batches.made}
          </Text>
          <ul>
            {batch.pots.map(({ netMassKg, count }) => (
              <li key={netMassKg}>{text.batches.potted(count, mass(netMassKg))}</li>
            ))}
            {seedPutBy !== null && <li>{text.batches.putBy(mass(seedPutBy.massKg))}</li>}
            <li>{text.batches.remaining(mass(creamed.remainingMassKg))}</li>
          </ul>
        </>
      )}
    </Sheet>
  );
}
