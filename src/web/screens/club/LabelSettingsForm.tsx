import { Button, Checkbox, NumberInput, Stack, Textarea, TextInput } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState, type SyntheticEvent } from 'react';
import { answer, api } from '../../api/client';
import { queries } from '../../api/queries';
import type { components } from '../../api/schema';
import { text } from '../../text';
import { Chips } from '../../ui/Chips';
import { Failure } from '../../ui/Failure';
import { NumberField } from '../../ui/NumberField';

const words = text.labels;

export type LabelSettings = components['schemas']['LabelSettingsResponse'];
type Word = keyof LabelSettings['words'];

/** All that the club decides about its labels, under the ETag under which it was read. */
export function LabelSettingsForm({
  settings,
  etag,
  onSaved,
}: {
  settings: LabelSettings;
  etag: string;
  onSaved: () => void;
}) {
  const [values, setValues] = useState(settings);
  const put = (change: Partial<LabelSettings>) => setValues({ ...values, ...change });
  const save = useMutation({
    mutationFn: () =>
      answer(
        api.PATCH('/api/v1/clubs/{clubId}/label-settings', {
          params: { path: { clubId: settings.clubId }, header: { 'If-Match': etag } },
          body: changeOf(values),
        }),
      ),
    onSuccess: async () => {
      await queries.invalidateQueries({ queryKey: ['label-settings'] });
      onSaved();
    },
  });
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    save.mutate();
  };
  const typed = (value: string | number) => (value === '' ? 0 : Number(value));
  return (
    <form onSubmit={submit}>
      <Stack>
        <Textarea
          label={words.producer}
          description={words.producerHint}
          rows={3}
          value={values.producer}
          onChange={(event) => put({ producer: event.currentTarget.value })}
        />
        <Chips
          label={words.origins}
          of={words.originChoices}
          value={values.origins}
          onChange={(origins) => put({ origins })}
        />
        <NumberInput
          label={words.singleSource}
          min={0}
          max={100}
          decimalScale={2}
          hideControls
          value={values.singleSourcePercent}
          onChange={(value) => put({ singleSourcePercent: typed(value) })}
        />
        <NumberField
          label={words.bestBefore}
          description={words.bestBeforeHint}
          least={1}
          most={120}
          decimals={0}
          value={values.bestBeforeMonths}
          onChange={(bestBeforeMonths) => put({ bestBeforeMonths })}
        />
        <NumberInput
          label={words.quantityHeight}
          min={4}
          max={20}
          decimalScale={1}
          hideControls
          value={values.quantityHeightMm}
          onChange={(value) => put({ quantityHeightMm: typed(value) })}
        />
        <Checkbox
          label={words.eMark}
          checked={values.eMark}
          onChange={(event) => put({ eMark: event.currentTarget.checked })}
        />
        <TextInput
          label={words.language}
          description={words.languageHint}
          required
          value={values.language}
          onChange={(event) => put({ language: event.currentTarget.value })}
        />
        <details>
          <summary>{words.words}</summary>
          <Stack>
            {(Object.keys(words.wordOf) as Word[]).map((word) => (
              <TextInput
                key={word}
                label={words.wordOf[word]}
                required
                value={values.words[word]}
                onChange={(event) =>
                  put({ words: { ...values.words, [word]: event.currentTarget.value } })
                }
              />
            ))}
          </Stack>
        </details>
        {save.isError && <Failure error={save.error} />}
        <Button type="submit" w="fit-content" loading={save.isPending}>
          {text.frame.save}
        </Button>
      </Stack>
    </form>
  );
}

function changeOf({
  producer,
  singleSourcePercent,
  origins,
  bestBeforeMonths,
  eMark,
  quantityHeightMm,
  language,
  words: ownWords,
}: LabelSettings) {
  return {
    producer,
    singleSourcePercent,
    origins,
    bestBeforeMonths,
    eMark,
    quantityHeightMm,
    language,
    words: ownWords,
  };
}
