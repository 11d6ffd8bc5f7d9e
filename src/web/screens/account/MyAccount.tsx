import { Button, Checkbox, Stack, Text, TextInput } from '@mantine/core';
import { useMutation, useQuery } from '@tanstack/react-query';
import { useState, type SyntheticEvent } from 'react';
import { answer, answerWithTag, api } from '../../api/client';
import { queries } from '../../api/queries';
import type { components } from '../../api/schema';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import { Loaded } from '../../ui/Loaded';
import { Sheet } from '../../ui/Sheet';

const words = text.club;

type Person = components['schemas']['PersonResponse'];

/** How one is called, and whether news come by e-mail, too. */
export function MyAccount() {
  const [isSaved, setSaved] = useState(false);
  const account = useQuery({
    queryKey: ['account'],
    queryFn: () => answerWithTag(api.GET('/api/v1/people/me')),
  });
  return (
    <Sheet title={words.account}>
      <Loaded query={account}>
        {({ data, etag }) => <Form key={etag} person={data} onSaved={setSaved} />}
      </Loaded>
      {isSaved && <Text role="status">{words.saved}</Text>}
    </Sheet>
  );
}

function Form({ person, onSaved }: { person: Person; onSaved: (isSaved: boolean) => void }) {
  const [name, setName] = useState(person.name);
  const [mailNotices, setMail] = useState(person.mailNotices);
  const save = useMutation({
    // Only what was changed here: in another browser something else may have been changed since it was read.
    mutationFn: async () => {
      const { etag } = await answerWithTag(api.GET('/api/v1/people/me'));
      return answer(
        api.PATCH('/api/v1/people/me', {
          params: { header: { 'If-Match': etag } },
          body: {
            ...(name !== person.name && { name }),
            ...(mailNotices !== person.mailNotices && { mailNotices }),
          },
        }),
      );
    },
    onSuccess: async () => {
      await queries.invalidateQueries();
      onSaved(true);
    },
  });
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    save.mutate();
  };
  return (
    <form onSubmit={submit} onChange={() => onSaved(false)}>
      <Stack align="flex-start">
        <TextInput
          label={words.yourName}
          autoComplete="name"
          required
          w="100%"
          value={name}
          onChange={(event) => setName(event.currentTarget.value)}
        />
        <Checkbox
          label={words.mailNotices}
          checked={mailNotices}
          onChange={(event) => setMail(event.currentTarget.checked)}
        />
        {save.isError && <Failure error={save.error} />}
        <Button type="submit" loading={save.isPending}>
          {text.frame.save}
        </Button>
      </Stack>
    </form>
  );
}
