import { Button, SegmentedControl, Stack, Text } from '@mantine/core';
import { lazy, Suspense, useState } from 'react';
import { Link, useParams } from 'wouter';
import { useClub } from '../../api/club';
import { text } from '../../text';
import { Copyable } from '../../ui/Copyable';
import { Loaded } from '../../ui/Loaded';
import { Screen } from '../../ui/Screen';
import { Sheet } from '../../ui/Sheet';
import { useTimes } from '../../ui/times';
import { useUnitWords } from '../../ui/units';
import { MoveProbe } from './MoveProbe';
import { useProbe, useProbeReadings, type Probe } from './probe-queries';
import { SendFile } from './SendFile';
import { decimals } from '../../ui/numbers';

const words = text.probes;
const ReadingsCurve = lazy(async () => ({
  default: (await import('./ReadingsCurve')).ReadingsCurve,
}));

/** One probe: where it is, what it read, and the ways to send more. */
export function ProbeScreen() {
  const { id } = useParams<{ id: string }>();
  const probe = useProbe(id);
  return (
    <Loaded query={probe}>
      {(found) => (
        <Screen title={found.name}>
          <nav className="ways no-print" aria-label={words.title}>
            <Link href="/club/probes">{words.back}</Link>
            {found.placement?.batchId != null && (
              <Link href={`/batches/${found.placement.batchId}`}>{words.toBatch}</Link>
            )}
          </nav>
          <div className="columns">
            <div>
              <Read probe={found} />
              <SendFile probeId={found.id} />
            </div>
            <div>
              <Script probeId={found.id} />
              <MoveProbe key={found.placement?.startsAt} probe={found} />
              <History probe={found} />
            </div>
          </div>
        </Screen>
      )}
    </Loaded>
  );
}

function Read({ probe }: { probe: Probe }) {
  const { clubId } = useClub();
  const times = useTimes();
  const { temperature } = useUnitWords();
  const [days, setDays] = useState('7');
  const readings = useProbeReadings(probe, Number(days));
  return (
    <Sheet title={words.lastReading}>
      {probe.lastReading === null ? (
        <Text className="soft">{words.noReading}</Text>
      ) : (
        <>
          <Text size="xl" fw={600} className="numbers">
            {words.last(
              temperature(probe.lastReading.temperatureC),
              times.dayAndTime(probe.lastReading.at),
            )}
          </Text>
          <Text className="soft">{words.readings(decimals(probe.readings))}</Text>
          <SegmentedControl
            my="sm"
            aria-label={words.lastReading}
            value={days}
            onChange={setDays}
            data={Object.entries(words.spans).map(([value, label]) => ({ value, label }))}
          />
          <Loaded query={readings}>
            {(items) =>
              items.length === 0 ? (
                <Text className="soft">{words.noneInSpan}</Text>
              ) : (
                <Suspense fallback={<div className="drawing" />}>
                  <ReadingsCurve readings={items} />
                </Suspense>
              )
            }
          </Loaded>
          <Button
            component="a"
            variant="default"
            mt="md"
            href={`/api/v1/clubs/${clubId}/probes/${probe.id}/readings.csv`}
            download
          >
            {words.download}
          </Button>
        </>
      )}
    </Sheet>
  );
}

/** Ready lines for a shell. */
function Script({ probeId }: { probeId: string }) {
  const { clubId } = useClub();
  const send = `curl -sS -H "Authorization: Bearer $TOKEN" -H 'Content-Type: text/csv' --data-binary @- ${location.origin}/api/v1/clubs/${clubId}/probes/${probeId}/readings`;
  return (
    <Sheet
      title={words.script}
      aside={
        <Link href="/club/tokens" className="no-print">
          {words.toTokens}
        </Link>
      }
    >
      <Text size="sm" mb="sm">
        {words.scriptHint}
      </Text>
      <Stack>
        <Copyable value={`${send} < logger.csv`} />
        <Copyable
          value={`printf 'at,temperatureC\\n%s,%s\\n' "$(date -u +%FT%TZ)" 41.7 | ${send}`}
        />
      </Stack>
    </Sheet>
  );
}

function History({ probe: { placements } }: { probe: Probe }) {
  const times = useTimes();
  if (placements.length === 0) return null;
  return (
    <Sheet title={words.history}>
      <ul className="plain-list">
        {placements.map(({ name, startsAt, endsAt }) => (
          <li key={startsAt}>
            {words.span(
              name,
              times.dayAndTime(startsAt),
              endsAt === null ? words.stillThere : times.dayAndTime(endsAt),
            )}
          </li>
        ))}
      </ul>
    </Sheet>
  );
}
