import { Button, Stack, Text } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { answer, api } from '../../api/client';
import type { components } from '../../api/schema';
import { forgetEverything } from '../../api/session';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import { Sheet } from '../../ui/Sheet';

const words = text.door;

type Demo = components['schemas']['Demo'];
type Account = Demo['accounts'][number];

/** Signs in as one of the demo's invented people, with one tap. */
export function TryDemo({ demo }: { demo: Demo }) {
  const signIn = useMutation({
    mutationFn: ({ email }: Account) =>
      answer(api.POST('/api/v1/session', { body: { email, password: demo.password } })),
    onSuccess: forgetEverything,
  });
  const steward = demo.accounts.find(({ role }) => role === 'steward');
  const member = demo.accounts.find(({ role }) => role === 'member');
  const others = demo.accounts.filter((one) => one !== steward && one !== member);
  if (steward === undefined) return null;
  const as = (account: Account, isFirst: boolean) => (
    <Button
      key={account.email}
      variant={isFirst ? 'filled' : 'default'}
      loading={signIn.isPending && signIn.variables === account}
      onClick={() => signIn.mutate(account)}
    >
      {(account.role === 'steward' ? words.asSteward : words.asMember)(account.name)}
    </Button>
  );
  return (
    <div className="above-rest">
      <Sheet title={words.tryDemo}>
        <Stack align="flex-start">
          <Text className="soft">{words.demoClub(demo.clubName)}</Text>
          {signIn.isError && <Failure error={signIn.error} />}
          {as(steward, true)}
          {member !== undefined && as(member, false)}
          {others.length > 0 && (
            <details>
              <summary>{words.asOthers}</summary>
              <Stack align="flex-start">{others.map((account) => as(account, false))}</Stack>
            </details>
          )}
        </Stack>
      </Sheet>
    </div>
  );
}
