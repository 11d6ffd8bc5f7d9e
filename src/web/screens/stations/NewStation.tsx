import { Button, Stack } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState, type SyntheticEvent } from 'react';
import { answer, api } from '../../api/client';
import { useClub } from '../../api/club';
import { queries } from '../../api/queries';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import { Sheet } from '../../ui/Sheet';
import { DutyFields, usualWarm, type StationDuty } from './DutyFields';
import { StationFields, wishOf, type StationValues } from './StationFields';

const words = text.club;

const fresh: StationValues = { name: '', places: 4, placeLoadKg: 30, changeoverMinutes: 120 };

/** Sets up a station with the duties that it serves. */
export function NewStation() {
  const { clubId } = useClub();
  const [values, setValues] = useState(fresh);
  const [duties, setDuties] = useState<StationDuty[]>([usualWarm]);
  const setUp = useMutation({
    mutationFn: () =>
      answer(
        api.POST('/api/v1/clubs/{clubId}/stations', {
          params: { path: { clubId } },
          body: { ...wishOf(values), duties },
        }),
      ),
    onSuccess: async () => {
      setValues(fresh);
      await queries.invalidateQueries({ queryKey: ['stations'] });
    },
  });
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    setUp.mutate();
  };
  return (
    <Sheet title={words.station}>
      <form onSubmit={submit}>
        <Stack>
          <StationFields value={values} onChange={setValues} />
          <DutyFields value={duties} onChange={setDuties} />
          {setUp.isError && <Failure error={setUp.error} />}
          <Button type="submit" w="fit-content" loading={setUp.isPending}>
            {words.add}
          </Button>
        </Stack>
      </form>
    </Sheet>
  );
}
