import { Button, Group, Text } from '@mantine/core';
import { useEffect, useState } from 'react';
import { text } from '../../text';

const words = text.today;
const storageKey = 'mixing-since';

/** A clock for the minutes at the mixer. It runs on when the phone sleeps or the page is left. */
export function MixingClock() {
  const [since, setSince] = useState(() => Number(localStorage.getItem(storageKey) ?? 0));
  const [now, setNow] = useState(() => Date.now());
  useEffect(() => {
    if (since === 0) return;
    const timer = setInterval(() => setNow(Date.now()), 1000);
    return () => clearInterval(timer);
  }, [since]);
  const start = () => {
    const begun = Date.now();
    localStorage.setItem(storageKey, String(begun));
    setNow(begun);
    setSince(begun);
  };
  const stop = () => {
    localStorage.removeItem(storageKey);
    setSince(0);
  };
  const seconds = Math.max(0, Math.floor((now - since) / 1000));
  return (
    <Group className="sheet no-print" role="group" aria-label={words.timer}>
      <Text fw={600}>{words.timer}</Text>
      {since === 0 ? (
        <Button variant="default" onClick={start}>
          {words.startTimer}
        </Button>
      ) : (
        <>
          <Text size="xl" className="numbers" role="timer">
            {Math.floor(seconds / 60)}:{String(seconds % 60).padStart(2, '0')}
          </Text>
          <Button variant="default" onClick={stop}>
            {words.stopTimer}
          </Button>
        </>
      )}
    </Group>
  );
}
