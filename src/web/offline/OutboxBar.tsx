import { Alert, Button, Group, List, Stack } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useEffect } from 'react';
import { Link } from 'wouter';
import { useClubRecord } from '../api/club';
import { useSession } from '../api/session';
import { text } from '../text';
import { ProblemWords } from '../ui/Failure';
import { forget, sendAgain, sendKept, useOutbox, type Problem } from './outbox';

const againMs = 30_000;

/** Tells what waits for the network, sends it when there is one, and shows what the service refused. */
export function OutboxBar() {
  const { data: person } = useSession();
  const personId = person?.personId;
  const mine = useOutbox().filter((one) => one.personId === personId);
  const waiting = mine.filter(({ problem }) => problem === undefined);
  useEffect(() => {
    if (personId === undefined) return;
    const send = () => void sendKept(personId);
    send();
    window.addEventListener('online', send);
    const timer = setInterval(send, againMs);
    return () => {
      window.removeEventListener('online', send);
      clearInterval(timer);
    };
  }, [personId]);
  return (
    <>
      {waiting.length > 0 && (
        <Alert color="slate" mb="md" role="status" title={text.frame.waiting(waiting.length)}>
          <List>
            {waiting.map(({ key, words }) => (
              <List.Item key={key}>{words}</List.Item>
            ))}
          </List>
        </Alert>
      )}
      {mine.map(
        ({ key, path, words, problem }) =>
          problem !== undefined && (
            <RefusedLater key={key} keptKey={key} path={path} words={words} problem={problem} />
          ),
      )}
    </>
  );
}

/** What came too late: why, and what can be done about it. It stays until the person has decided. */
function RefusedLater({
  keptKey,
  path,
  words,
  problem,
}: {
  keptKey: string;
  path: string;
  words: string;
  problem: Problem;
}) {
  const { clubId, screen } = whereabouts(path);
  const club = useClubRecord(clubId);
  const again = useMutation({ mutationFn: () => sendAgain(keptKey) });
  return (
    <Alert color="red" variant="light" mb="md" role="alert" title={words}>
      <Stack gap="xs" align="flex-start">
        {text.frame.refusedLater}
        <ProblemWords problem={problem} timeZone={club.data?.timeZone} />
        <Group gap="xs">
          <Button variant="default" loading={again.isPending} onClick={() => again.mutate()}>
            {text.frame.again}
          </Button>
          {screen !== null && (
            <Button variant="default" component={Link} href={screen}>
              {text.frame.lookThere}
            </Button>
          )}
          <Button variant="default" onClick={() => void forget(keptKey)}>
            {text.frame.dropIt}
          </Button>
        </Group>
      </Stack>
    </Alert>
  );
}

/** To which club a request belongs, and on which screen the same can be done in another way. */
function whereabouts(path: string): { clubId: string; screen: string | null } {
  const [, clubId = '', things, id = ''] =
    /^\/api\/v1\/clubs\/([^/]+)\/([^/]+)(?:\/([^/]+))?/.exec(path) ?? [];
  const screens: Record<string, string> = {
    batches: `/batches/${id}`,
    bookings: '/room',
    loans: '/seed/loans',
  };
  return { clubId, screen: screens[things ?? ''] ?? null };
}
