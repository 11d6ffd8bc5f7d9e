import { Button, Group, Stack, Text } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState, type SyntheticEvent } from 'react';
import { useLocation } from 'wouter';
import { answer, answerWithTag, api } from '../../api/client';
import { useClub } from '../../api/club';
import { queries } from '../../api/queries';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import { Sheet } from '../../ui/Sheet';
import type { Station } from '../club/club-queries';
import { StationFields, wishOf, type StationValues } from './StationFields';

const words = text.stations;

/** Name, load, changeover, more places; and taking away what was never used. */
export function ChangeStation({ station }: { station: Station }) {
  const { clubId } = useClub();
  const [, go] = useLocation();
  const [values, setValues] = useState<StationValues>(station);
  const [isSure, setSure] = useState(false);
  const path = { clubId, id: station.id };
  const tag = async () =>
    (await answerWithTag(api.GET('/api/v1/clubs/{clubId}/stations/{id}', { params: { path } })))
      .etag;
  const change = useMutation({
    mutationFn: async () =>
      answer(
        api.PATCH('/api/v1/clubs/{clubId}/stations/{id}', {
          params: { path, header: { 'If-Match': await tag() } },
          body: wishOf(values),
        }),
      ),
    onSuccess: () => queries.invalidateQueries({ queryKey: ['stations'] }),
  });
  const remove = useMutation({
    mutationFn: async () =>
      answer(
        api.DELETE('/api/v1/clubs/{clubId}/stations/{id}', {
          params: { path, header: { 'If-Match': await tag() } },
        }),
      ),
    onSuccess: async () => {
      go('/club/stations');
      await queries.invalidateQueries({ queryKey: ['stations'] });
    },
  });
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    change.mutate();
  };
  const failed = [change, remove].find(({ isError }) => isError);
  return (
    <Sheet title={words.change}>
      <form onSubmit={submit}>
        <Stack>
          <StationFields value={values} leastPlaces={station.places} onChange={setValues} />
          <Text className="soft">
            {words.addPlacesOnly} {words.removeHint}
          </Text>
          {change.isSuccess && <Text role="status">{words.changed}</Text>}
          {failed !== undefined && <Failure error={failed.error} />}
          <Group>
            <Button type="submit" loading={change.isPending}>
              {text.frame.save}
            </Button>
            <Button
              variant="default"
              color="red"
              loading={remove.isPending}
              onClick={() => (isSure ? remove.mutate() : setSure(true))}
            >
              {isSure ? words.sure : words.remove}
            </Button>
          </Group>
        </Stack>
      </form>
    </Sheet>
  );
}
