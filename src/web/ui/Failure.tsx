import { Alert, Button, List, Stack, Text } from '@mantine/core';
import { Refused, Unreached } from '../api/client';
import { text } from '../text';

/** What went wrong, in the service's own words, with what would work, and a way on. */
export function Failure({ error, again }: { error: unknown; again?: () => void }) {
  return (
    <Alert color="red" variant="light" role="alert" title={titleOf(error)}>
      <Stack gap="xs" align="flex-start">
        <Text>{wordsOf(error)}</Text>
        {error instanceof Refused && (error.problem.errors?.length ?? 0) > 1 && (
          <List>
            {error.problem.errors?.map(({ detail, pointer }) => (
              <List.Item key={`${pointer ?? ''}${detail}`}>{detail}</List.Item>
            ))}
          </List>
        )}
        {again !== undefined && <Button onClick={again}>{text.frame.again}</Button>}
      </Stack>
    </Alert>
  );
}

function titleOf(error: unknown): string {
  return error instanceof Refused ? error.problem.title : text.frame.broken;
}

function wordsOf(error: unknown): string {
  if (error instanceof Refused) return error.problem.detail;
  if (error instanceof Unreached) return text.frame.unreached;
  return error instanceof Error ? error.message : String(error);
}
