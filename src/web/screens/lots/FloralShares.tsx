import { Button, Group, NativeSelect, NumberInput } from '@mantine/core';
import { text } from '../../text';

const words = text.lots;

/** How much of a honey comes from what the bees worked. */
export type FloralShare = { floralSourceId: string; percent: number };

/** The floral shares of one honey, to be typed; one more begins with the first of the choices. */
export function FloralShares({
  choices,
  value,
  onChange,
}: {
  choices: { value: string; label: string }[];
  value: FloralShare[];
  onChange: (value: FloralShare[]) => void;
}) {
  const put = (index: number, change: Partial<FloralShare>) =>
    onChange(value.map((one, at) => (at === index ? { ...one, ...change } : one)));
  return (
    <>
      {value.map((share, index) => (
        <Group key={index} align="flex-end" wrap="nowrap" grow>
          <NativeSelect
            label={words.source}
            value={share.floralSourceId}
            data={choices}
            onChange={(event) => put(index, { floralSourceId: event.currentTarget.value })}
          />
          <NumberInput
            label={words.percent}
            min={0}
            max={100}
            hideControls
            value={share.percent}
            onChange={(typed) => put(index, { percent: Number(typed) })}
          />
        </Group>
      ))}
      <Button
        variant="subtle"
        w="fit-content"
        onClick={() =>
          onChange([...value, { floralSourceId: choices[0]?.value ?? '', percent: 0 }])
        }
      >
        {words.anotherSource}
      </Button>
    </>
  );
}
