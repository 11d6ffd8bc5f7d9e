import { Button, Group, Stack } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { lazy, Suspense, useState, type SyntheticEvent } from 'react';
import { useClub } from '../../api/club';
import { readAnew } from '../../api/queries';
import type { components } from '../../api/schema';
import { useSendOrKeep } from '../../offline/outbox';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import { MassField } from '../../ui/MassField';
import { NumberField } from '../../ui/NumberField';
import { TemperatureField } from '../../ui/TemperatureField';
import { useUnitWords } from '../../ui/units';
import { WhenField } from '../../ui/WhenField';
import type { Batch, StepKind } from './batch-queries';
import type { LotMass } from './LotMasses';

const SeedForBatch = lazy(async () => ({
  default: (await import('../seed/SeedForBatch')).SeedForBatch,
}));

/** What of a batch its next step needs. */
type StepBatch = Pick<Batch, 'id' | 'name' | 'member'>;

type Pots = { netMassKg: number | null; count: number | null };

/** Files one step of a batch, with what belongs to it. */
export function StepForm({
  batch,
  kind,
  onDone,
}: {
  batch: StepBatch;
  kind: StepKind;
  onDone: () => void;
}) {
  const { clubId } = useClub();
  const sendOrKeep = useSendOrKeep();
  const { massUnit, temperatureUnit } = useUnitWords();
  const [at, setAt] = useState(new Date().toISOString());
  const [temperatureC, setTemperature] = useState<number | null>(null);
  const [seed, setSeed] = useState<LotMass[]>([]);
  const [pots, setPots] = useState<Pots[]>([{ netMassKg: 0.5, count: null }]);
  const [seedPutByKg, setPutBy] = useState<number | null>(null);
  const [lossKg, setLoss] = useState<number | null>(null);
  const file = useMutation({
    mutationFn: () =>
      sendOrKeep(
        `/api/v1/clubs/${clubId}/batches/${batch.id}/steps`,
        {
          kind,
          at,
          ...(temperatureC !== null && { temperatureC }),
          ...(kind === 'seeded' && { seed }),
          ...(kind === 'potted' && { pots: pots.flatMap(filled) }),
          ...(kind === 'potted' && seedPutByKg !== null && { seedPutByKg }),
          ...((kind === 'potted' || kind === 'seeded') && lossKg !== null && { lossKg }),
        } satisfies components['schemas']['StepRequest'],
        `${text.batches.does[kind]}: ${batch.name}`,
      ),
    onSuccess: async (how) => {
      // Without a network nothing new can be read: that it is kept is told at once.
      if (how === 'sent') await readAnew();
      onDone();
    },
  });
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    file.mutate();
  };
  return (
    <form onSubmit={submit}>
      <Stack>
        {kind !== 'shelved' && kind !== 'abandoned' && (
          <TemperatureField
            label={text.batches.temperature(temperatureUnit)}
            description={text.batches.optional}
            valueC={temperatureC}
            onChange={setTemperature}
          />
        )}
        <WhenField value={at} onChange={setAt} />
        {kind === 'seeded' && <SeedChoice batch={batch} value={seed} onChange={setSeed} />}
        {kind === 'potted' && (
          <>
            <PotSizes value={pots} onChange={setPots} />
            <MassField
              label={text.batches.seedPutBy(massUnit)}
              valueKg={seedPutByKg}
              onChange={setPutBy}
            />
          </>
        )}
        {(kind === 'potted' || kind === 'seeded') && (
          <MassField label={text.batches.loss(massUnit)} valueKg={lossKg} onChange={setLoss} />
        )}
        {file.isError && <Failure error={file.error} />}
        <Button type="submit" size="lg" loading={file.isPending}>
          {text.batches.does[kind]}
        </Button>
      </Stack>
    </form>
  );
}

function filled({ netMassKg, count }: Pots): { netMassKg: number; count: number }[] {
  return netMassKg === null || count === null ? [] : [{ netMassKg, count }];
}

function SeedChoice({
  batch,
  value,
  onChange,
}: {
  batch: StepBatch;
  value: LotMass[];
  onChange: (value: LotMass[]) => void;
}) {
  return (
    <fieldset className="bare">
      <legend>{text.batches.seed}</legend>
      <Suspense fallback={null}>
        <SeedForBatch batch={batch} value={value} onChange={onChange} />
      </Suspense>
    </fieldset>
  );
}

function PotSizes({ value, onChange }: { value: Pots[]; onChange: (value: Pots[]) => void }) {
  const { massUnit } = useUnitWords();
  const put = (index: number, change: Partial<Pots>) =>
    onChange(value.map((size, at) => (at === index ? { ...size, ...change } : size)));
  return (
    <fieldset className="bare">
      <legend>{text.batches.pots}</legend>
      <Stack gap="xs" align="flex-start">
        {value.map((size, index) => (
          <Group key={index} grow align="flex-end">
            <MassField
              label={text.batches.potSize(massUnit)}
              valueKg={size.netMassKg}
              onChange={(netMassKg) => put(index, { netMassKg })}
            />
            <NumberField
              label={text.batches.potCount}
              decimals={0}
              value={size.count}
              onChange={(count) => put(index, { count })}
            />
          </Group>
        ))}
        <Button
          variant="subtle"
          onClick={() => onChange([...value, { netMassKg: null, count: null }])}
        >
          {text.batches.anotherSize}
        </Button>
      </Stack>
    </fieldset>
  );
}
