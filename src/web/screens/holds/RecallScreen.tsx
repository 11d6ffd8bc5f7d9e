import { Button, Group, Text } from '@mantine/core';
import { useDebouncedValue } from '@mantine/hooks';
import { useState } from 'react';
import { Link, useParams } from 'wouter';
import { useClub } from '../../api/club';
import { text } from '../../text';
import { Cautions } from '../../ui/Cautions';
import { Loaded } from '../../ui/Loaded';
import { NumberField } from '../../ui/NumberField';
import { Screen } from '../../ui/Screen';
import { Sheet } from '../../ui/Sheet';
import { useUnitWords } from '../../ui/units';
import { useLot } from '../lots/lot-queries';
import { DrillButton } from './DrillButton';
import { given, useRecall, type Recall, type Thresholds } from './hold-queries';
import { RecalledLots } from './RecalledLots';

const words = text.holds;
const typingMs = 400;

/** Where a lot went: by holder, with how much of it is where. To act on, to print, to call people from. */
export function RecallScreen() {
  const { id } = useParams<{ id: string }>();
  const lot = useLot(id);
  const [thresholds, setThresholds] = useState<Thresholds>({
    atLeastPercent: null,
    atLeastG: null,
  });
  const [typed] = useDebouncedValue(thresholds, typingMs);
  const recall = useRecall(id, typed);
  return (
    <Loaded query={lot}>
      {({ name }) => (
        <Screen title={words.recallOf(name)}>
          <nav className="ways no-print" aria-label={words.screen}>
            <Link href={`/lots/${id}`}>{words.toLot}</Link>
            <Link href="/seed/holds">{words.screen}</Link>
          </nav>
          <Loaded query={recall}>{(report) => <Totals report={report} />}</Loaded>
          <div className="sheet no-print">
            <div className="pair">
              <NumberField
                label={words.atLeastPercent}
                most={100}
                decimals={6}
                value={thresholds.atLeastPercent}
                onChange={(atLeastPercent) => setThresholds({ ...thresholds, atLeastPercent })}
              />
              <NumberField
                label={words.atLeastG}
                decimals={0}
                value={thresholds.atLeastG}
                onChange={(atLeastG) => setThresholds({ ...thresholds, atLeastG })}
              />
            </div>
            <Group mt="md">
              <Files lotId={id} thresholds={thresholds} />
              <DrillButton lotId={id} />
            </Group>
          </div>
          {recall.data !== undefined && <RecalledLots items={recall.data.items} />}
          <Cautions />
        </Screen>
      )}
    </Loaded>
  );
}

/** The same report as files, with the same thresholds. */
function Files({ lotId, thresholds }: { lotId: string; thresholds: Thresholds }) {
  const { clubId } = useClub();
  const base = `/api/v1/clubs/${clubId}/lots/${lotId}`;
  const query = new URLSearchParams(
    Object.entries(given(thresholds)).map(([name, value]) => [name, String(value)]),
  ).toString();
  const end = query === '' ? '' : `?${query}`;
  return (
    <>
      <Button component="a" href={`${base}/recall.html${end}`} target="_blank">
        {words.recallPrint}
      </Button>
      <Button component="a" variant="default" href={`${base}/recall.csv${end}`}>
        {words.recallCsv}
      </Button>
    </>
  );
}

type PartName = keyof typeof words.parts;

function Totals({ report: { totals, notListed, initialMassKg } }: { report: Recall }) {
  const { mass } = useUnitWords();
  return (
    <Sheet title={words.totals}>
      <Text>{words.recallIntro(totals.lots - 1, totals.holders, mass(initialMassKg))}</Text>
      <table className="plain totals">
        <tbody>
          {(Object.entries(words.parts) as [PartName, string][]).map(([part, label]) => (
            <tr key={part}>
              <th scope="row">{label}</th>
              <td className="numbers">{mass(totals[part])}</td>
            </tr>
          ))}
          <tr>
            <th scope="row">{words.together}</th>
            <td className="numbers">
              <strong>{mass(totals.foundKg)}</strong>
            </td>
          </tr>
        </tbody>
      </table>
      {notListed.lots > 0 && (
        <Text>{words.notListed(notListed.lots, mass(notListed.foundKg))}</Text>
      )}
    </Sheet>
  );
}
