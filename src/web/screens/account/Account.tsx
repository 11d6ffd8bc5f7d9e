import {
  Button,
  PasswordInput,
  SegmentedControl,
  Stack,
  Text,
  useMantineColorScheme,
} from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState, type SyntheticEvent, type ReactNode } from 'react';
import { answer, api } from '../../api/client';
import { forgetEverything, useSession } from '../../api/session';
import { text } from '../../text';
import { chooseUnits, useUnits } from '../../ui/choices';
import { Failure } from '../../ui/Failure';
import { Screen } from '../../ui/Screen';
import { Sheet } from '../../ui/Sheet';
import { Browsers } from './Browsers';
import { MyAccount } from './MyAccount';

/** One's own account, and how one likes the page. */
export function Account() {
  const { data: person } = useSession();
  const { colorScheme, setColorScheme } = useMantineColorScheme();
  const units = useUnits();
  const signOut = useMutation({
    mutationFn: () => answer(api.DELETE('/api/v1/session')),
    onSuccess: forgetEverything,
  });
  return (
    <Screen title={person?.name ?? text.club.account}>
      <Sheet>
        <Stack align="flex-start">
          <Text className="soft">{person?.email}</Text>
          <Choice label={text.club.units}>
            <SegmentedControl
              aria-label={text.club.units}
              value={units}
              onChange={(value) => chooseUnits(value)}
              data={[
                { value: 'metric', label: text.club.metric },
                { value: 'imperial', label: text.club.imperial },
              ]}
            />
          </Choice>
          <Choice label={text.club.colours}>
            <SegmentedControl
              aria-label={text.club.colours}
              value={colorScheme}
              onChange={(value) => setColorScheme(value)}
              data={[
                { value: 'light', label: text.club.light },
                { value: 'dark', label: text.club.dark },
                { value: 'auto', label: text.club.auto },
              ]}
            />
          </Choice>
          {signOut.isError && <Failure error={signOut.error} />}
          <Button variant="default" onClick={() => signOut.mutate()} loading={signOut.isPending}>
            {text.door.signOut}
          </Button>
        </Stack>
      </Sheet>
      <MyAccount />
      <ChangePassword />
      <Browsers />
    </Screen>
  );
}

function Choice({ label, children }: { label: string; children: ReactNode }) {
  return (
    <div>
      <Text size="sm" mb={4}>
        {label}
      </Text>
      {children}
    </div>
  );
}

function ChangePassword() {
  const [currentPassword, setCurrent] = useState('');
  const [newPassword, setNew] = useState('');
  const change = useMutation({
    mutationFn: () =>
      answer(api.POST('/api/v1/people/me/password', { body: { currentPassword, newPassword } })),
    onSuccess: () => {
      setCurrent('');
      setNew('');
    },
  });
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    change.mutate();
  };
  return (
    <Sheet title={text.club.changePassword}>
      <form onSubmit={submit}>
        <Stack align="flex-start">
          {change.isError && <Failure error={change.error} />}
          {change.isSuccess && <Text role="status">{text.club.changed}</Text>}
          <PasswordInput
            label={text.club.currentPassword}
            autoComplete="current-password"
            required
            w="100%"
            value={currentPassword}
            onChange={(event) => setCurrent(event.currentTarget.value)}
          />
          <PasswordInput
            label={text.club.newPassword}
            description={text.door.passwordHint}
            autoComplete="new-password"
            required
            w="100%"
            value={newPassword}
            onChange={(event) => setNew(event.currentTarget.value)}
          />
          <Button type="submit" loading={change.isPending}>
            {text.club.changePassword}
          </Button>
        </Stack>
      </form>
    </Sheet>
  );
}
