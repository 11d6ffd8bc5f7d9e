import { Center, Loader, Stack, Text } from '@mantine/core';
import type { UseQueryResult } from '@tanstack/react-query';
import type { ReactNode } from 'react';
import { text } from '../text';
import { Failure } from './Failure';

/** What was asked for, once it is there; until then that it is on its way, or why it does not come. */
export function Loaded<Data>({
  query,
  children,
}: {
  query: UseQueryResult<Data>;
  children: (data: Data) => ReactNode;
}) {
  if (query.data !== undefined) return <>{children(query.data)}</>;
  if (query.isError) return <Failure error={query.error} again={() => void query.refetch()} />;
  return (
    <Center py="xl" role="status" aria-live="polite">
      <Stack align="center" gap="xs">
        <Loader type="dots" />
        <Text className="soft">{text.frame.loading}</Text>
      </Stack>
    </Center>
  );
}
