import { Button, Stack, Text, TextInput } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState, type SyntheticEvent } from 'react';
import { answer, api } from '../../api/client';
import { chooseClub, forgetEverything } from '../../api/session';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import { Screen } from '../../ui/Screen';
import { Sheet } from '../../ui/Sheet';
import { TimeZoneField } from '../../ui/TimeZoneField';

/** Signed in, and in no club yet. */
export function FoundClub() {
  const [name, setName] = useState('');
  const [timeZone, setTimeZone] = useState(Intl.DateTimeFormat().resolvedOptions().timeZone);
  const found = useMutation({
    mutationFn: () => answer(api.POST('/api/v1/clubs', { body: { name, timeZone } })),
    onSuccess: async ({ id }) => {
      chooseClub(id);
      await forgetEverything();
    },
  });
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    found.mutate();
  };
  return (
    <Screen title={text.door.found}>
      <Sheet>
        <form onSubmit={submit}>
          <Stack>
            <Text>{text.door.foundIntro}</Text>
            {found.isError && <Failure error={found.error} />}
            <TextInput
              label={text.door.clubName}
              required
              value={name}
              onChange={(event) => setName(event.currentTarget.value)}
            />
            <TimeZoneField label={text.door.timeZone} value={timeZone} onChange={setTimeZone} />
            <Button type="submit" loading={found.isPending} w="fit-content">
              {text.door.found}
            </Button>
          </Stack>
        </form>
      </Sheet>
    </Screen>
  );
}
