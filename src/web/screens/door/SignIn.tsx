import { Button, PasswordInput, Stack, TextInput, Title } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState, type SyntheticEvent } from 'react';
import { answer, api } from '../../api/client';
import { forgetEverything } from '../../api/session';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';

export function SignIn() {
  const [email, setEmail] = useState('');
  const [password, setPassword] = useState('');
  const signIn = useMutation({
    mutationFn: () => answer(api.POST('/api/v1/session', { body: { email, password } })),
    onSuccess: forgetEverything,
  });
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    signIn.mutate();
  };
  return (
    <form onSubmit={submit}>
      <Stack>
        <Title order={2} size="h3">
          {text.door.signIn}
        </Title>
        {signIn.isError && <Failure error={signIn.error} />}
        <TextInput
          label={text.door.email}
          type="email"
          autoComplete="username"
          required
          value={email}
          onChange={(event) => setEmail(event.currentTarget.value)}
        />
        <PasswordInput
          label={text.door.password}
          autoComplete="current-password"
          required
          value={password}
          onChange={(event) => setPassword(event.currentTarget.value)}
        />
        <Button type="submit" loading={signIn.isPending}>
          {text.door.signIn}
        </Button>
      </Stack>
    </form>
  );
}
