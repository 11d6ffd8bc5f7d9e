import { Button, Stack, Text } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState } from 'react';
import { useLocation, useParams } from 'wouter';
import { answer, api } from '../../api/client';
import { chooseClub, forgetEverything, useSession } from '../../api/session';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import { Loaded } from '../../ui/Loaded';
import { Screen } from '../../ui/Screen';
import { Sheet } from '../../ui/Sheet';
import { SignIn } from './SignIn';
import { SignUp } from './SignUp';

/** Where an invitation's link leads: with an account one joins, without one opens it. */
export function Invitation() {
  const { code } = useParams<{ code: string }>();
  const session = useSession();
  const [, go] = useLocation();
  const [hasAccount, setHasAccount] = useState(false);
  const join = useMutation({
    mutationFn: () =>
      answer(api.POST('/api/v1/invitations/{code}/acceptance', { params: { path: { code } } })),
    onSuccess: async ({ clubId }) => {
      chooseClub(clubId);
      await forgetEverything();
      go('/');
    },
  });
  return (
    <Screen title={text.door.invited}>
      <Loaded query={session}>
        {(person) => (
          <Sheet>
            {person === null ? (
              <>
                {hasAccount ? <SignIn /> : <SignUp invitationCode={code} />}
                <Button mt="md" variant="subtle" onClick={() => setHasAccount(!hasAccount)}>
                  {hasAccount ? text.door.noAccount : text.door.haveAccount}
                </Button>
              </>
            ) : (
              <Stack align="flex-start">
                <Text>{person.name}</Text>
                {join.isError && <Failure error={join.error} />}
                <Button onClick={() => join.mutate()} loading={join.isPending}>
                  {text.door.accept}
                </Button>
              </Stack>
            )}
          </Sheet>
        )}
      </Loaded>
    </Screen>
  );
}
