import { Button, Stack, Text } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState } from 'react';
import { answer, api } from '../../api/client';
import { useClub } from '../../api/club';
import { readAnew } from '../../api/queries';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import { WhenField } from '../../ui/WhenField';
import type { Duty } from '../club/club-queries';
import { durationWords } from '../today/duration-words';
import { FreeTimes } from './FreeTimes';

const words = text.room;
const weekMs = 7 * 86_400_000;

/** What somebody wants of a station, but for the time. */
export interface PlacesWish {
  stationId: string;
  duty: Duty;
  minC: number;
  maxC: number;
  places: number;
}

/** Stands in line for places that are not free yet. Whoever is more patient gets them sooner: a week more than asked for at first. */
export function WaitForm({
  wish,
  startsAt,
  endsAt,
  onChooseStart,
}: {
  wish: PlacesWish;
  startsAt: string;
  endsAt: string;
  onChooseStart: (startsAt: string) => void;
}) {
  const { clubId } = useClub();
  const minutes = Math.round((Date.parse(endsAt) - Date.parse(startsAt)) / 60_000);
  const [notBefore, setNotBefore] = useState(startsAt);
  const [notAfter, setNotAfter] = useState(new Date(Date.parse(endsAt) + weekMs).toISOString());
  const wait = useMutation({
    mutationFn: () =>
      answer(
        api.POST('/api/v1/clubs/{clubId}/waiting-list', {
          params: { path: { clubId } },
          body: { ...wish, minutes, notBefore, notAfter },
        }),
      ),
    onSuccess: readAnew,
  });
  if (wait.isSuccess) return <Text role="status">{words.waiting}</Text>;
  return (
    <Stack>
      <Text>{words.waitHow(words.placesCount(wish.places), durationWords(minutes))}</Text>
      <div className="pair">
        <WhenField label={words.notBefore} value={notBefore} onChange={setNotBefore} />
        <WhenField label={words.notAfter} value={notAfter} onChange={setNotAfter} />
      </div>
      {wait.isError && <Failure error={wait.error} />}
      <FreeTimes error={wait.error} onChoose={onChooseStart} />
      <Button w="fit-content" loading={wait.isPending} onClick={() => wait.mutate()}>
        {words.waitInstead}
      </Button>
    </Stack>
  );
}
