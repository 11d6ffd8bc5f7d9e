import { Alert, Button, List } from '@mantine/core';
import { useEffect } from 'react';
import { useSession } from '../api/session';
import { text } from '../text';
import { forget, sendKept, useOutbox } from './outbox';

const againMs = 30_000;

/** Tells what waits for the network, sends it when there is one, and shows what the service refused. */
export function OutboxBar() {
  const { data: person } = useSession();
  const personId = person?.personId;
  const mine = useOutbox().filter((one) => one.personId === personId);
  const waiting = mine.filter(({ problem }) => problem === undefined);
  const refused = mine.filter(({ problem }) => problem !== undefined);
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
      {refused.map(({ key, words, problem }) => (
        <Alert key={key} color="red" variant="light" mb="md" role="alert" title={words}>
          <p>
            {text.frame.refusedLater} {problem?.detail}
          </p>
          <Button variant="default" onClick={() => void forget(key)}>
            {text.frame.understood}
          </Button>
        </Alert>
      ))}
    </>
  );
}
