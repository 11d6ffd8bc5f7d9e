import { Button, Group, Stack, TextInput } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState, type SyntheticEvent } from 'react';
import { Link, useLocation } from 'wouter';
import { answer, api } from '../../api/client';
import { useClub } from '../../api/club';
import { readAnew } from '../../api/queries';
import { text } from '../../text';
import { Chips } from '../../ui/Chips';
import { Empty } from '../../ui/Empty';
import { Failure } from '../../ui/Failure';
import { Loaded } from '../../ui/Loaded';
import { MassField } from '../../ui/MassField';
import { NumberField } from '../../ui/NumberField';
import { Screen } from '../../ui/Screen';
import { Sheet } from '../../ui/Sheet';
import { TemperatureField } from '../../ui/TemperatureField';
import { useUnitWords } from '../../ui/units';
import { useFloralSources, type FloralSource } from '../club/club-queries';
import { FloralShares, type FloralShare } from './FloralShares';

const words = text.lots;

/** Honey as it comes from the extractor, or seed from outside the club. */
export function BringIn() {
  const sources = useFloralSources();
  return (
    <Screen title={words.bringIn}>
      <Loaded query={sources}>
        {(items) =>
          items.length === 0 ? (
            <Empty
              action={
                <Button component={Link} href="/club/floral-sources">
                  {text.club.parts['floral-sources']}
                </Button>
              }
            >
              {words.noSources}
            </Empty>
          ) : (
            <BringInForm sources={items} />
          )
        }
      </Loaded>
    </Screen>
  );
}

type Kind = 'honey' | 'seed';

function BringInForm({ sources }: { sources: FloralSource[] }) {
  const { clubId } = useClub();
  const { massUnit, temperatureUnit } = useUnitWords();
  const [, go] = useLocation();
  const choices = sources.map(({ id, name }) => ({ value: id, label: name }));
  const [kind, setKind] = useState<Kind>('honey');
  const [name, setName] = useState('');
  const [massKg, setMass] = useState<number | null>(null);
  const [floralShares, setShares] = useState<FloralShare[]>([
    { floralSourceId: choices[0]?.value ?? '', percent: 100 },
  ]);
  const [countryCode, setCountry] = useState('');
  const [origin, setOrigin] = useState('');
  const [extractedOn, setExtracted] = useState('');
  const [grain, setGrain] = useState<FloralSource['grain']>('fine');
  const [refractiveIndex, setIndex] = useState<number | null>(null);
  const [readAtC, setReadAt] = useState<number | null>(20);
  const [moisturePercent, setMoisture] = useState<number | null>(null);
  const bringIn = useMutation({
    mutationFn: () =>
      answer(
        api.POST('/api/v1/clubs/{clubId}/lots', {
          params: { path: { clubId } },
          body: {
            kind,
            name,
            massKg: massKg ?? 0,
            floralShares,
            originShares: [{ countryCode: countryCode.toUpperCase(), percent: 100 }],
            origin,
            ...(kind === 'seed' && { grain }),
            ...(extractedOn !== '' && { extractedOn }),
            ...(moisturePercent !== null && refractiveIndex === null && { moisturePercent }),
            ...(refractiveIndex !== null &&
              readAtC !== null && { refractometer: { refractiveIndex, temperatureC: readAtC } }),
          },
        }),
      ),
    onSuccess: async ({ id }) => {
      await readAnew();
      go(`/lots/${id}`);
    },
  });
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    bringIn.mutate();
  };
  return (
    <Sheet>
      <form onSubmit={submit}>
        <Stack>
          <Chips
            label={words.what}
            of={{ honey: words.kinds.honey, seed: words.kinds.seed }}
            value={kind}
            onChange={setKind}
          />
          <TextInput
            label={words.name}
            description={words.nameHint}
            required
            value={name}
            onChange={(event) => setName(event.currentTarget.value)}
          />
          <MassField label={words.mass(massUnit)} required valueKg={massKg} onChange={setMass} />
          <FloralShares choices={choices} value={floralShares} onChange={setShares} />
          <Group grow align="flex-end">
            <TextInput
              label={words.country}
              description={words.countryHint}
              required
              maxLength={2}
              value={countryCode}
              onChange={(event) => setCountry(event.currentTarget.value)}
            />
            <TextInput
              label={words.origin}
              description={words.originHint}
              required
              value={origin}
              onChange={(event) => setOrigin(event.currentTarget.value)}
            />
          </Group>
          {kind === 'seed' ? (
            <Chips label={words.seedGrain} of={words.grains} value={grain} onChange={setGrain} />
          ) : (
            <TextInput
              type="date"
              label={words.extractedOn}
              value={extractedOn}
              onChange={(event) => setExtracted(event.currentTarget.value)}
            />
          )}
          <Group grow align="flex-end">
            <NumberField
              label={words.index}
              description={words.indexHint}
              decimals={5}
              value={refractiveIndex}
              onChange={setIndex}
            />
            <TemperatureField
              label={words.readAt(temperatureUnit)}
              valueC={readAtC}
              onChange={setReadAt}
            />
          </Group>
          <NumberField
            label={words.moistureInstead}
            description={words.moistureHint}
            decimals={1}
            value={moisturePercent}
            onChange={setMoisture}
          />
          {bringIn.isError && <Failure error={bringIn.error} />}
          <Button type="submit" w="fit-content" loading={bringIn.isPending}>
            {words.bringIn}
          </Button>
        </Stack>
      </form>
    </Sheet>
  );
}
