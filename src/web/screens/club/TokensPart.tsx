import { Button, Checkbox, Group, Stack, Text, TextInput } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState, type SyntheticEvent } from 'react';
import { answer, api, ifMatch } from '../../api/client';
import { useClub } from '../../api/club';
import { queries } from '../../api/queries';
import { text } from '../../text';
import { Copyable } from '../../ui/Copyable';
import { Empty } from '../../ui/Empty';
import { Failure } from '../../ui/Failure';
import { Loaded } from '../../ui/Loaded';
import { Sheet } from '../../ui/Sheet';
import { useTimes } from '../../ui/times';
import { useTokens, type Token } from './club-queries';

const words = text.club;

export function TokensPart() {
  const tokens = useTokens();
  return (
    <>
      <Loaded query={tokens}>
        {(items) =>
          items.length === 0 ? (
            <Empty>{words.noTokens}</Empty>
          ) : (
            <Sheet title={words.parts.tokens}>
              <ul className="rows">
                {items.map((token) => (
                  <li key={token.id}>
                    <TokenRow token={token} />
                  </li>
                ))}
              </ul>
            </Sheet>
          )
        }
      </Loaded>
      <NewToken />
    </>
  );
}

function TokenRow({ token }: { token: Token }) {
  const times = useTimes();
  const withdraw = useMutation({
    mutationFn: async () => {
      const path = { id: token.id };
      const header = await ifMatch(api.GET('/api/v1/tokens/{id}', { params: { path } }));
      return answer(api.DELETE('/api/v1/tokens/{id}', { params: { path, header } }));
    },
    onSuccess: () => queries.invalidateQueries({ queryKey: ['tokens'] }),
  });
  return (
    <>
      <div className="row">
        <span>
          <strong>{token.name}</strong>
          <span className="soft">
            {words.ending(token.ending)} · {token.scopes.join(', ')} ·{' '}
            {words.ends(times.date(token.expiresAt))}
          </span>
        </span>
        <Button variant="subtle" color="red" onClick={() => withdraw.mutate()}>
          {words.withdraw}
        </Button>
      </div>
      {withdraw.isError && <Failure error={withdraw.error} />}
    </>
  );
}

function NewToken() {
  const { clubId } = useClub();
  const [name, setName] = useState('');
  const [scopes, setScopes] = useState<string[]>(['read']);
  const make = useMutation({
    mutationFn: () =>
      answer(api.POST('/api/v1/tokens', { body: { name, scopes: scopes as Token['scopes'] } })),
    onSuccess: () => queries.invalidateQueries({ queryKey: ['tokens'] }),
  });
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    make.mutate();
  };
  return (
    <Sheet title={words.token}>
      <form onSubmit={submit}>
        <Stack>
          <TextInput
            label={words.tokenName}
            required
            value={name}
            onChange={(event) => setName(event.currentTarget.value)}
          />
          <Checkbox.Group label={words.scopeLegend} value={scopes} onChange={setScopes}>
            <Group mt="xs">
              {Object.entries(words.scopes).map(([scope, label]) => (
                <Checkbox key={scope} value={scope} label={label} />
              ))}
            </Group>
          </Checkbox.Group>
          {make.isError && <Failure error={make.error} />}
          {make.data !== undefined && (
            <>
              <Text fw={600}>{words.tokenOnce}</Text>
              <Copyable value={make.data.token} />
              <Text>{words.tryIt}</Text>
              <Copyable
                value={`curl -H "Authorization: Bearer ${make.data.token}" ${location.origin}/api/v1/clubs/${clubId}/batches`}
              />
            </>
          )}
          <Button type="submit" w="fit-content" loading={make.isPending}>
            {words.token}
          </Button>
        </Stack>
      </form>
    </Sheet>
  );
}
