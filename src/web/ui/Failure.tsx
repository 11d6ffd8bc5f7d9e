import { Alert, Button, List, Stack, Text } from '@mantine/core';
import { useContext } from 'react';
import { Refused, Unreached } from '../api/client';
import { ClubContext } from '../api/club';
import { text } from '../text';
import { timeWords } from './times';

/** What went wrong, in the service's own words, with what would work, and a way on. */
export function Failure({ error, again }: { error: unknown; again?: () => void }) {
  const club = useContext(ClubContext);
  const local = (words: string) => withLocalTimes(words, club?.timeZone);
  return (
    <Alert color="red" variant="light" role="alert" title={titleOf(error)}>
      <Stack gap="xs" align="flex-start">
        <Text>{local(wordsOf(error))}</Text>
        {error instanceof Refused && (error.problem.errors?.length ?? 0) > 1 && (
          <List>
            {error.problem.errors?.map(({ detail, pointer }) => (
              <List.Item key={`${pointer ?? ''}${detail}`}>{local(detail)}</List.Item>
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

/** The service names instants in UTC, for scripts; people read the clock of the room, or their own where there is no room. */
function withLocalTimes(words: string, timeZone: string | undefined): string {
  const zone = timeZone ?? Intl.DateTimeFormat().resolvedOptions().timeZone;
  return words.replace(/\d{4}-\d\d-\d\dT\d\d:\d\d(:\d\d(\.\d+)?)?Z/g, (instant) =>
    timeWords(zone).dayAndTime(instant),
  );
}
