import { Button, PasswordInput, Stack, Text, TextInput, Title } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState, type SyntheticEvent } from 'react';
import { answer, api } from '../../api/client';
import { forgetEverything } from '../../api/session';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';

/** A new account, which is signed in at once. */
export function SignUp({ invitationCode = '' }: { invitationCode?: string }) {
  const [name, setName] = useState('');
  const [email, setEmail] = useState('');
  const [password, setPassword] = useState('');
  const [code, setCode] = useState(invitationCode);
  const signUp = useMutation({
    mutationFn: async () => {
      const withCode = code.trim() === '' ? {} : { invitationCode: code.trim() };
      await answer(api.POST('/api/v1/people', { body: { name, email, password, ...withCode } }));
      await answer(api.POST('/api/v1/session', { body: { email, password } }));
    },
    onSuccess: forgetEverything,
  });
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    signUp.mutate();
  };
  return (
    <form onSubmit={submit}>
      <Stack>
        <Title order={2} size="h3">
          {text.door.signUp}
        </Title>
        <Text className="soft">{text.door.signUpIntro}</Text>
        {signUp.isError && <Failure error={signUp.error} />}
        <TextInput
          label={text.door.name}
          autoComplete="name"
          required
          value={name}
          onChange={(event) => setName(event.currentTarget.value)}
        />
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
          description={text.door.passwordHint}
          autoComplete="new-password"
          required
          value={password}
          onChange={(event) => setPassword(event.currentTarget.value)}
        />
        <TextInput
          label={text.door.code}
          description={text.door.codeHint}
          value={code}
          onChange={(event) => setCode(event.currentTarget.value)}
        />
        <Button type="submit" loading={signUp.isPending}>
          {text.door.signUp}
        </Button>
      </Stack>
    </form>
  );
}
