import { Button, Group, Stack, Text } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState, type SyntheticEvent } from 'react';
import { useClub } from '../../api/club';
import { readAnew } from '../../api/queries';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import type { Station } from '../club/club-queries';
import { DutyFields, type StationDuty } from './DutyFields';
import { StationFields, wishOf, type StationValues } from './StationFields';
import { changeStation, type StationChange } from './station-queries';
import { WouldWork } from './WouldWork';

const words = text.stations;

type Values = StationValues & { duties: StationDuty[] };

/** Name, places, load, changeover and duties. What bookings ahead still need is told, and what would work instead. */
export function ChangeStation({
  station,
  onSaved,
  onCancel,
}: {
  station: Station;
  onSaved: () => void;
  onCancel: () => void;
}) {
  const { clubId } = useClub();
  const [values, setValues] = useState<Values>(station);
  const change = useMutation({
    mutationFn: (instead: StationChange) =>
      changeStation(clubId, station.id, { ...changedOf(station, values), ...instead }),
    onSuccess: async () => {
      await readAnew();
      onSaved();
    },
  });
  const edit = (next: Values) => {
    setValues(next);
    change.reset();
  };
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    change.mutate({});
  };
  const takeInstead = (instead: StationChange) => {
    const { places, changeoverMinutes, duties } = { ...values, ...instead };
    setValues({ ...values, places, changeoverMinutes, duties });
    change.mutate(instead);
  };
  return (
    <form onSubmit={submit}>
      <Stack>
        <StationFields value={values} onChange={(next) => edit({ ...values, ...next })} />
        <Text className="soft">{words.fewerPlaces}</Text>
        <DutyFields value={values.duties} onChange={(duties) => edit({ ...values, duties })} />
        {change.isError && <Failure error={change.error} />}
        <WouldWork
          error={change.error}
          station={station}
          isPending={change.isPending}
          onTake={takeInstead}
        />
        <Group>
          <Button type="submit" loading={change.isPending}>
            {text.frame.save}
          </Button>
          <Button variant="subtle" onClick={onCancel}>
            {text.frame.cancel}
          </Button>
        </Group>
      </Stack>
    </form>
  );
}

/** What differs from the station as it was shown: what others change meanwhile stays theirs. */
function changedOf(station: Station, values: Values): StationChange {
  const wish = { ...wishOf(values), duties: values.duties };
  return Object.fromEntries(
    Object.entries(wish).filter(([name, value]) => {
      const shown = station[name as keyof typeof wish];
      return JSON.stringify(inOrder(value)) !== JSON.stringify(inOrder(shown));
    }),
  );
}

function inOrder(value: unknown): unknown {
  return Array.isArray(value)
    ? [...(value as StationDuty[])].sort((one, other) => one.duty.localeCompare(other.duty))
    : value;
}
