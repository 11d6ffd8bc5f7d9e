import { Button, Group, Stack, Text } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState } from 'react';
import { useLocation } from 'wouter';
import { useClub } from '../../api/club';
import { readAnew } from '../../api/queries';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import { Sheet } from '../../ui/Sheet';
import type { Station } from '../club/club-queries';
import { InTheWay } from './InTheWay';
import { changeStation, removeStation } from './station-queries';

const words = text.stations;

type How = 'retire' | 'remove';

/** A station that is sold or broken goes out of use; one that was set up by mistake goes altogether. */
export function TakeOut({ station }: { station: Station }) {
  const { clubId } = useClub();
  const [, go] = useLocation();
  const [sureOf, setSureOf] = useState<How | null>(null);
  const takeOut = useMutation({
    mutationFn: async (how: How): Promise<unknown> =>
      how === 'retire'
        ? changeStation(clubId, station.id, { retired: true })
        : removeStation(clubId, station.id),
    onSuccess: async () => {
      go('/club/stations');
      await readAnew();
    },
    onError: () => setSureOf(null),
  });
  const press = (how: How) => {
    if (sureOf === how) takeOut.mutate(how);
    else setSureOf(how);
  };
  return (
    <Sheet title={words.takeOut}>
      <Stack>
        <Text className="soft">
          {words.retireHint} {words.removeHint}
        </Text>
        {takeOut.isError && <Failure error={takeOut.error} />}
        <InTheWay error={takeOut.error} advice={words.moveOrWait} />
        <Group>
          <Button
            variant="default"
            color="red"
            loading={takeOut.isPending}
            onClick={() => press('retire')}
          >
            {sureOf === 'retire' ? words.sureRetire : words.retire}
          </Button>
          <Button
            variant="default"
            color="red"
            loading={takeOut.isPending}
            onClick={() => press('remove')}
          >
            {sureOf === 'remove' ? words.sure : words.remove}
          </Button>
        </Group>
      </Stack>
    </Sheet>
  );
}
