import { Alert, Button, Group, NativeSelect, Text } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { answer, answerWithTag, api } from '../../api/client';
import { useClub } from '../../api/club';
import { text } from '../../text';
import { Loaded } from '../../ui/Loaded';
import { Sheet } from '../../ui/Sheet';
import { LabelSettingsForm, type LabelSettings } from './LabelSettingsForm';

const words = text.labels;

/** How the club's labels are made, which local law decides, and what one looks like. */
export function LabelsPart() {
  const { clubId, role } = useClub();
  const [isSaved, setSaved] = useState(false);
  const settings = useQuery({
    queryKey: ['label-settings', clubId],
    queryFn: () =>
      answerWithTag(
        api.GET('/api/v1/clubs/{clubId}/label-settings', { params: { path: { clubId } } }),
      ),
  });
  return (
    <Loaded query={settings}>
      {({ data, etag }) => (
        <>
          <Alert color="comb" variant="light">
            {data.caution}
          </Alert>
          <LookAtLabel />
          <Sheet title={words.title}>
            {role === 'steward' ? (
              <LabelSettingsForm
                key={etag}
                settings={data}
                etag={etag}
                onSaved={() => setSaved(true)}
              />
            ) : (
              <AsTheyAre settings={data} />
            )}
            {isSaved && <Text role="status">{words.saved}</Text>}
          </Sheet>
        </>
      )}
    </Loaded>
  );
}

function AsTheyAre({ settings }: { settings: LabelSettings }) {
  const lines: [string, string][] = [
    [words.producer, settings.producer === '' ? words.blank : settings.producer],
    [words.singleSource, String(settings.singleSourcePercent)],
    [words.origins, words.originChoices[settings.origins]],
    [words.bestBefore, settings.bestBeforeMonths?.toString() ?? words.blank],
    [words.quantityHeight, String(settings.quantityHeightMm)],
    [words.eMark, settings.eMark ? words.yes : words.no],
    [words.language, settings.language],
  ];
  return (
    <table className="plain">
      <tbody>
        {lines.map(([label, value]) => (
          <tr key={label}>
            <th scope="row">{label}</th>
            <td className="as-written">{value}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

const uses = { pot: 'a4-3x7', tub: 'a4-2x7', pail: 'a4-2x4' } as const;
type Use = keyof typeof uses;

/** Opens a label of a lot as it would be printed. */
function LookAtLabel() {
  const { clubId } = useClub();
  const [chosen, setChosen] = useState<string | null>(null);
  const [use, setUse] = useState<Use>('pot');
  const lots = useQuery({
    queryKey: ['lots', clubId, 'for-labels'],
    queryFn: async () =>
      (
        await answer(
          api.GET('/api/v1/clubs/{clubId}/lots', {
            params: { path: { clubId }, query: { limit: 50 } },
          }),
        )
      ).items,
  });
  return (
    <Sheet title={words.look}>
      <Loaded query={lots}>
        {(items) => {
          const lotId = chosen ?? items.find(({ kind }) => kind === 'creamed')?.id ?? items[0]?.id;
          if (lotId === undefined) return <Text className="soft">{words.noLots}</Text>;
          return (
            <Group align="flex-end">
              <NativeSelect
                label={words.ofLot}
                value={lotId}
                data={items.map(({ id, name }) => ({ value: id, label: name }))}
                onChange={(event) => setChosen(event.currentTarget.value)}
              />
              <NativeSelect
                label={words.for}
                value={use}
                data={(Object.keys(uses) as Use[]).map((one) => ({
                  value: one,
                  label: text.lots.labelsFor[one],
                }))}
                onChange={(event) => setUse(event.currentTarget.value as Use)}
              />
              <Button
                component="a"
                target="_blank"
                href={`/api/v1/clubs/${clubId}/lots/${lotId}/label.pdf?for=${use}&sheet=${uses[use]}&count=1`}
              >
                {words.openIt}
              </Button>
            </Group>
          );
        }}
      </Loaded>
    </Sheet>
  );
}
