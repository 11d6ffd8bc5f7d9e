import { Alert, Button, Group, List, Text, Title } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState } from 'react';
import { useLocation } from 'wouter';
import { answer, api, Refused } from '../../api/client';
import { useClub } from '../../api/club';
import { readAnew } from '../../api/queries';
import { text } from '../../text';
import { figures } from '../../ui/numbers';
import { Failure } from '../../ui/Failure';
import { useTimes } from '../../ui/times';
import { useUnitWords } from '../../ui/units';
import { ChainDrawing } from './ChainDrawing';
import type { Alternative, Plan } from './plan-queries';

const words = text.plan;

/** The ways through the room that were found, each with its cost, its reasons and a button that books it whole. */
export function Offers({ plan, onPlan }: { plan: Plan; onPlan: (plan: Plan) => void }) {
  const { clubId } = useClub();
  const times = useTimes();
  const { mass } = useUnitWords();
  const [, go] = useLocation();
  const [isSecond, setSecond] = useState(false);
  const book = useMutation({
    mutationFn: (alternative: number) =>
      answer(
        api.POST('/api/v1/clubs/{clubId}/plans/{id}/booking', {
          params: { path: { clubId, id: plan.id } },
          body: { alternative },
        }),
      ),
    onSuccess: async ({ batchId }) => {
      await readAnew();
      go(batchId === null ? '/room' : `/batches/${batchId}`);
    },
    onError: (error) => {
      const fresh = error instanceof Refused ? error.problem['plan'] : null;
      if (typeof fresh === 'object' && fresh !== null) {
        setSecond(true);
        onPlan(fresh as Plan);
      }
    },
  });
  return (
    <>
      {isSecond && (
        <Alert color="slate" role="status">
          {words.fasterTitle}
        </Alert>
      )}
      <Text>
        {text.lots.kinds.seed}: {words.seed(mass(plan.seed.massKg), plan.seed.name)} {plan.seed.why}
      </Text>
      <Text>{plan.hold.inWords}</Text>
      {plan.warnings.map((warning) => (
        <Text key={warning} fw={600}>
          {warning}
        </Text>
      ))}
      {book.isError && <Failure error={book.error} />}
      {plan.alternatives.map((alternative, index) => (
        <Offer
          key={alternative.bestAt.join()}
          alternative={alternative}
          isBooking={book.isPending}
          onBook={() => book.mutate(index)}
        />
      ))}
      <Text className="soft">{words.until(times.time(plan.expiresAt))}</Text>
      {plan.soonerWithDutyWindow !== null && (
        <section className="sheet">
          <Title order={2} size="h4">
            {words.sooner}
          </Title>
          <Text>{plan.soonerWithDutyWindow.inWords}</Text>
        </section>
      )}
      <details className="sheet">
        <summary>{words.assumptions}</summary>
        <List size="sm">
          {plan.assumptions.map(({ text: assumed, source }) => (
            <List.Item key={assumed}>
              {assumed} <span className="soft">{source}</span>
            </List.Item>
          ))}
        </List>
      </details>
    </>
  );
}

function Offer({
  alternative,
  isBooking,
  onBook,
}: {
  alternative: Alternative;
  isBooking: boolean;
  onBook: () => void;
}) {
  const times = useTimes();
  const { heat } = alternative;
  return (
    <section className="sheet">
      <Title order={2} size="h4">
        {words.best(alternative.bestAt.map((wish) => words.wishes[wish]).join(', '))}
      </Title>
      <ChainDrawing alternative={alternative} />
      <ol className="rows">
        {alternative.slots.map((slot) => (
          <li key={slot.step} className="row">
            <span>
              <strong>{words.steps[slot.step]}</strong>
              <span className="soft">
                {words.at(slot.stationName, text.room.places(slot.places))}
              </span>
            </span>
            <span className="row-end numbers">
              {times.dayAndTime(slot.startsAt)}
              <span className="soft">{times.dayAndTime(slot.endsAt)}</span>
            </span>
          </li>
        ))}
      </ol>
      <Text mt="sm" fw={600}>
        {words.hands}
      </Text>
      <List>
        {alternative.handsOn.map(({ deed, at, inWords }) => (
          <List.Item key={`${deed}${at}`}>{inWords}</List.Item>
        ))}
      </List>
      <Text mt="sm">
        {words.cost(
          figures(heat.diastaseLeftPercent, 2),
          figures(heat.hmfGainMgPerKg, 2),
          figures(heat.energyKWh, 2),
        )}
      </Text>
      {alternative.warnings.map((warning) => (
        <Text key={warning} fw={600}>
          {warning}
        </Text>
      ))}
      <details>
        <summary>{words.whyNotSooner}</summary>
        <Text>{alternative.whyNotSooner.inWords}</Text>
      </details>
      <Group mt="sm">
        <Button size="lg" loading={isBooking} onClick={onBook}>
          {words.book}
        </Button>
      </Group>
    </section>
  );
}
