import { Button, Group, NativeSelect, Stack } from '@mantine/core';
import { useState } from 'react';
import { useClub } from '../../api/club';
import type { paths } from '../../api/schema';
import { text } from '../../text';
import { Chips } from '../../ui/Chips';
import { NumberField } from '../../ui/NumberField';
import { Sheet } from '../../ui/Sheet';
import type { Lot } from './lot-queries';

const words = text.lots;

type Query = NonNullable<
  paths['/api/v1/clubs/{clubId}/lots/{id}/label.pdf']['get']['parameters']['query']
>;
type For = NonNullable<Query['for']>;
type SheetName = NonNullable<Query['sheet']>;

/** Sheets are named by their geometry: paper, columns by rows, or the size of a single label in millimetres. */
const sheets: SheetName[] = [
  'a4-2x4',
  'a4-2x7',
  'a4-3x7',
  'a4-3x8',
  'letter-2x3',
  'letter-2x5',
  'letter-3x10',
  '100x70',
  '70x50',
  '62x40',
];

/** What can be printed of a lot: labels, and its lineage as a drawing and as a table. */
export function Prints({ lot }: { lot: Lot }) {
  const { clubId } = useClub();
  const [of, setOf] = useState<For>(lot.kind === 'seed' ? 'tub' : 'pail');
  const [sheet, setSheet] = useState<SheetName>(sheets[0] ?? 'a4-3x8');
  const [count, setCount] = useState<number | null>(null);
  const base = `/api/v1/clubs/${clubId}/lots/${lot.id}`;
  const query = new URLSearchParams({ for: of, sheet });
  if (count !== null) query.set('count', String(count));
  return (
    <Sheet title={words.labels}>
      <Stack>
        <Chips label={words.labelFor} of={words.labelsFor} value={of} onChange={setOf} />
        <Group grow align="flex-end">
          <NativeSelect
            label={words.labelSheet}
            value={sheet}
            data={sheets.map((value) => ({ value, label: words.sheetName(value) }))}
            onChange={(event) => setSheet(event.currentTarget.value as SheetName)}
          />
          <NumberField
            label={words.labelCount}
            decimals={0}
            least={1}
            value={count}
            onChange={setCount}
          />
        </Group>
        <Group>
          <Button component="a" href={`${base}/label.pdf?${query.toString()}`} target="_blank">
            {words.labelOpen}
          </Button>
          <Button component="a" variant="subtle" href={`${base}/lineage.svg`} target="_blank">
            {words.drawing}
          </Button>
          <Button component="a" variant="subtle" href={`${base}/lineage.csv`}>
            {words.drawingAsTable}
          </Button>
        </Group>
      </Stack>
    </Sheet>
  );
}
