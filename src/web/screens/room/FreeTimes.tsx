import { Button, Group, Text } from '@mantine/core';
import { Refused } from '../../api/client';
import { text } from '../../text';
import { useTimes } from '../../ui/times';

const words = text.room;

/** Starts that would do, as a refused booking or wish names them; each can be chosen with one tap. */
export function FreeTimes({
  error,
  wordsOf = words.startAt,
  onChoose,
}: {
  error: unknown;
  /** What a tap on a time does. */
  wordsOf?: (time: string) => string;
  onChoose: (startsAt: string) => void;
}) {
  const times = useTimes();
  const freeTimes = freeTimesOf(error);
  if (freeTimes.length === 0) return null;
  return (
    <>
      <Text>{words.instead}</Text>
      <Group>
        {freeTimes.map(({ firstStart }) => (
          <Button key={firstStart} variant="default" onClick={() => onChoose(firstStart)}>
            {wordsOf(times.dayAndTime(firstStart))}
          </Button>
        ))}
      </Group>
    </>
  );
}

function freeTimesOf(error: unknown): { firstStart: string }[] {
  if (!(error instanceof Refused)) return [];
  const { freeTimes } = error.problem;
  return Array.isArray(freeTimes) ? (freeTimes as { firstStart: string }[]) : [];
}
