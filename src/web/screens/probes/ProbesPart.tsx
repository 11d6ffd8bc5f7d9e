import { Button, Stack, Text, TextInput } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState, type SyntheticEvent } from 'react';
import { Link, useLocation } from 'wouter';
import { answer, api } from '../../api/client';
import { useClub } from '../../api/club';
import { readAnew } from '../../api/queries';
import { text } from '../../text';
import { Empty } from '../../ui/Empty';
import { Failure } from '../../ui/Failure';
import { Loaded } from '../../ui/Loaded';
import { Sheet } from '../../ui/Sheet';
import { useTimes } from '../../ui/times';
import { useUnitWords } from '../../ui/units';
import { WhenField } from '../../ui/WhenField';
import { useProbes, type ListedProbe } from './probe-queries';
import { SpotChoice, spotBody } from './SpotChoice';

const words = text.probes;

/** The club's probes: where each is and what it read last; and a new one is put in. */
export function ProbesPart() {
  const probes = useProbes();
  return (
    <>
      <Text>{words.intro}</Text>
      <Loaded query={probes}>
        {(items) =>
          items.length === 0 ? (
            <Empty>{words.none}</Empty>
          ) : (
            <Sheet title={words.title}>
              <ul className="rows">
                {items.map((probe) => (
                  <li key={probe.id}>
                    <ProbeRow probe={probe} />
                  </li>
                ))}
              </ul>
            </Sheet>
          )
        }
      </Loaded>
      <PutIn />
    </>
  );
}

function ProbeRow({ probe: { id, name, placement, lastReading } }: { probe: ListedProbe }) {
  const times = useTimes();
  const { temperature } = useUnitWords();
  return (
    <Link href={`/probes/${id}`} className="row">
      <span>
        <strong>{name}</strong>
        <span className="soft">
          {placement === null ? words.isNowhere : words.isIn(placement.name)}
          {lastReading !== null && ` · ${times.dayAndTime(lastReading.at)}`}
        </span>
      </span>
      <span className="row-end numbers">
        {lastReading === null ? (
          <span className="soft">{words.noReading}</span>
        ) : (
          <strong>{temperature(lastReading.temperatureC)}</strong>
        )}
      </span>
    </Link>
  );
}

function PutIn() {
  const { clubId } = useClub();
  const [, go] = useLocation();
  const [name, setName] = useState('');
  const [spot, setSpot] = useState('');
  const [placedAt, setPlacedAt] = useState(new Date().toISOString());
  const putIn = useMutation({
    mutationFn: () =>
      answer(
        api.POST('/api/v1/clubs/{clubId}/probes', {
          params: { path: { clubId } },
          body: { name, placedAt, ...spotBody(spot) },
        }),
      ),
    onSuccess: async ({ id }) => {
      await readAnew();
      go(`/probes/${id}`);
    },
  });
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    putIn.mutate();
  };
  return (
    <Sheet title={words.putIn}>
      <form onSubmit={submit}>
        <Stack>
          <TextInput
            label={words.name}
            description={words.nameHint}
            required
            value={name}
            onChange={(event) => setName(event.currentTarget.value)}
          />
          <SpotChoice value={spot} onChange={setSpot} />
          <WhenField label={words.since} value={placedAt} onChange={setPlacedAt} />
          {putIn.isError && <Failure error={putIn.error} />}
          <Button type="submit" w="fit-content" loading={putIn.isPending}>
            {words.putIn}
          </Button>
        </Stack>
      </form>
    </Sheet>
  );
}
