import { Button, NumberInput, Stack, Text } from '@mantine/core';
import { useEffect, useRef, useState, type SyntheticEvent } from 'react';
import { text } from '../../text';
import { Chips } from '../../ui/Chips';
import { Loaded } from '../../ui/Loaded';
import { MassField } from '../../ui/MassField';
import { Screen } from '../../ui/Screen';
import { Sheet } from '../../ui/Sheet';
import { useUnitWords } from '../../ui/units';
import { useFloralSources } from '../club/club-queries';
import { FloralShares, type FloralShare } from '../lots/FloralShares';
import { FittingList } from './FittingList';
import { useFittingForWish, type SeedWish } from './seed-queries';
import { SeedWays } from './SeedWays';

const words = text.seed;
const usualSeedPercent = 10;

/** Which seed fits honey that is in no batch yet. */
export function FitsScreen() {
  const [wish, setWish] = useState<SeedWish | null>(null);
  const ranked = useRef<HTMLDivElement>(null);
  useEffect(() => {
    // On a phone the answer stands below the question.
    if (wish !== null) ranked.current?.scrollIntoView({ block: 'start' });
  }, [wish]);
  return (
    <Screen title={words.parts.fits}>
      <SeedWays here="fits" />
      <div className="asked">
        <WishForm onWish={setWish} />
        <div ref={ranked}>
          {wish === null ? <Text className="soft">{words.fitsIntro}</Text> : <Ranked wish={wish} />}
        </div>
      </div>
    </Screen>
  );
}

function Ranked({ wish }: { wish: SeedWish }) {
  const fitting = useFittingForWish(wish);
  return <Loaded query={fitting}>{(found) => <FittingList fitting={found} />}</Loaded>;
}

type Coarsest = keyof typeof words.coarsestOf;

function WishForm({ onWish }: { onWish: (wish: SeedWish) => void }) {
  const { massUnit } = useUnitWords();
  const sources = useFloralSources();
  const [massKg, setMass] = useState<number | null>(null);
  const [shares, setShares] = useState<FloralShare[]>([{ floralSourceId: '', percent: 100 }]);
  const [seedPercent, setSeedPercent] = useState(usualSeedPercent);
  const [coarsest, setCoarsest] = useState<Coarsest>('any');
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    const floralShares = shares
      .filter(({ floralSourceId }) => floralSourceId !== '')
      .map(({ floralSourceId, percent }) => `${floralSourceId}:${String(percent)}`)
      .join(',');
    onWish({
      honeyMassKg: massKg ?? 0,
      seedPercent,
      ...(floralShares !== '' && { floralShares }),
      ...(coarsest !== 'any' && { grain: coarsest }),
    });
  };
  return (
    <Sheet>
      <form onSubmit={submit}>
        <Stack>
          <MassField
            label={words.honeyMass(massUnit)}
            required
            valueKg={massKg}
            onChange={setMass}
          />
          <FloralShares
            choices={[
              { value: '', label: words.notSaid },
              ...(sources.data ?? []).map(({ id, name }) => ({ value: id, label: name })),
            ]}
            value={shares}
            onChange={setShares}
          />
          <Chips
            label={words.coarsest}
            of={words.coarsestOf}
            value={coarsest}
            onChange={setCoarsest}
          />
          <NumberInput
            label={words.seedPercent}
            min={0.1}
            max={100}
            decimalScale={2}
            hideControls
            inputMode="decimal"
            value={seedPercent}
            onChange={(typed) => setSeedPercent(Number(typed))}
          />
          <Button type="submit" size="lg" w="fit-content">
            {words.rank}
          </Button>
        </Stack>
      </form>
    </Sheet>
  );
}
