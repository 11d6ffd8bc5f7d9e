import { Button, Checkbox, Stack, TextInput } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState, type SyntheticEvent } from 'react';
import { answer, api } from '../../api/client';
import { useClub } from '../../api/club';
import { queries } from '../../api/queries';
import { text } from '../../text';
import { Chips } from '../../ui/Chips';
import { Empty } from '../../ui/Empty';
import { Failure } from '../../ui/Failure';
import { Loaded } from '../../ui/Loaded';
import { Sheet } from '../../ui/Sheet';
import { useFloralSources, type FloralSource } from './club-queries';

const words = text.club;

export function FloralSourcesPart() {
  const { role } = useClub();
  const sources = useFloralSources();
  return (
    <>
      <Loaded query={sources}>
        {(items) =>
          items.length === 0 ? (
            <Empty>{words.noSources}</Empty>
          ) : (
            <Sheet title={words.parts['floral-sources']}>
              <ul className="rows">
                {items.map(({ id, name, grain, sets }) => (
                  <li key={id} className="row">
                    <strong>{name}</strong>
                    <span className="soft">{sets ? words.grains[grain] : words.setsNot}</span>
                  </li>
                ))}
              </ul>
            </Sheet>
          )
        }
      </Loaded>
      {role === 'steward' && <NewFloralSource />}
    </>
  );
}

function NewFloralSource() {
  const { clubId } = useClub();
  const [name, setName] = useState('');
  const [grain, setGrain] = useState<FloralSource['grain']>('medium');
  const [sets, setSets] = useState(true);
  const add = useMutation({
    mutationFn: () =>
      answer(
        api.POST('/api/v1/clubs/{clubId}/floral-sources', {
          params: { path: { clubId } },
          body: { name, grain, sets },
        }),
      ),
    onSuccess: async () => {
      setName('');
      await queries.invalidateQueries({ queryKey: ['floral-sources'] });
    },
  });
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    add.mutate();
  };
  return (
    <Sheet title={words.source}>
      <form onSubmit={submit}>
        <Stack>
          <TextInput
            label={words.sourceName}
            required
            value={name}
            onChange={(event) => setName(event.currentTarget.value)}
          />
          <Checkbox
            label={words.sets}
            checked={sets}
            onChange={(event) => setSets(event.currentTarget.checked)}
          />
          <Chips label={words.grain} of={words.grains} value={grain} onChange={setGrain} />
          {add.isError && <Failure error={add.error} />}
          <Button type="submit" w="fit-content" loading={add.isPending}>
            {words.add}
          </Button>
        </Stack>
      </form>
    </Sheet>
  );
}
