import { Alert, Button, List, Stack, Text } from '@mantine/core';
import { useContext } from 'react';
import { Refused, Unreached } from '../api/client';
import { ClubContext } from '../api/club';
import type { components } from '../api/schema';
import { text } from '../text';
import { timeWords } from './times';

/** What went wrong, in the service's own words, with what would work, and a way on. */
export function Failure({ error, again }: { error: unknown; again?: () => void }) {
  const club = useContext(ClubContext);
  return (
    <Alert color="red" variant="light" role="alert" title={titleOf(error)}>
      <Stack gap="xs" align="flex-start">
        {error instanceof Refused ? (
          <ProblemWords problem={error.problem} timeZone={club?.timeZone} />
        ) : (
          <Text>{wordsOf(error)}</Text>
        )}
        {again !== undefined && <Button onClick={again}>{text.frame.again}</Button>}
      </Stack>
    </Alert>
  );
}

/** What a refusal says: what is wrong and what would work; where several things are wrong, each of them. */
export function ProblemWords({
  problem: { detail, errors = [] },
  timeZone,
}: {
  problem: components['schemas']['Problem'];
  /** IANA name of the club's; none: that of the device. */
  timeZone: string | undefined;
}) {
  return (
    <>
      <Text>{withLocalTimes(detail, timeZone)}</Text>
      {errors.length > 1 && (
        <List>
          {errors.map((one) => (
            <List.Item key={`${one.pointer ?? ''}${one.detail}`}>
              {withLocalTimes(one.detail, timeZone)}
            </List.Item>
          ))}
        </List>
      )}
    </>
  );
}

function titleOf(error: unknown): string {
  if (error instanceof Refused) return error.problem.title;
  return error instanceof Unreached ? text.frame.unreached : text.frame.broken;
}

function wordsOf(error: unknown): string {
  if (error instanceof Unreached) return text.frame.unreachedHow;
  return error instanceof Error ? error.message : String(error);
}

/** The service names instants in UTC, for scripts; people read the clock of the room, or their own where there is no room. */
function withLocalTimes(words: string, timeZone: string | undefined): string {
  const zone = timeZone ?? Intl.DateTimeFormat().resolvedOptions().timeZone;
  return words.replace(/\d{4}-\d\d-\d\dT\d\d:\d\d(:\d\d(\.\d+)?)?Z/g, (instant) =>
    timeWords(zone).dayAndTime(instant),
  );
}
