import { Button, Stack, TextInput } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState, type SyntheticEvent } from 'react';
import { answer, api } from '../../api/client';
import { queries } from '../../api/queries';
import type { components } from '../../api/schema';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import { NumberField } from '../../ui/NumberField';
import { TimeZoneField } from '../../ui/TimeZoneField';

const words = text.sharing;

type Club = components['schemas']['ClubResponse'];

/** How the room is shared, and what the club is called. */
export function SharingForm({
  club,
  etag,
  onSaved,
}: {
  club: Club;
  etag: string;
  onSaved: () => void;
}) {
  const [name, setName] = useState(club.name);
  const [timeZone, setTimeZone] = useState(club.timeZone);
  const [placeDaysAhead, setPlaceDays] = useState(club.placeDaysAhead);
  const [offerHours, setOfferHours] = useState<number | null>(club.offerMinutes / 60);
  const [noShowHours, setNoShowHours] = useState<number | null>(club.noShowMinutes / 60);
  const save = useMutation({
    mutationFn: () =>
      answer(
        api.PATCH('/api/v1/clubs/{clubId}', {
          params: { path: { clubId: club.id }, header: { 'If-Match': etag } },
          body: {
            name,
            timeZone,
            placeDaysAhead,
            offerMinutes: Math.round((offerHours ?? 0) * 60),
            noShowMinutes: Math.round((noShowHours ?? 0) * 60),
          },
        }),
      ),
    onSuccess: async () => {
      await queries.invalidateQueries();
      onSaved();
    },
  });
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    save.mutate();
  };
  return (
    <form onSubmit={submit}>
      <Stack>
        <NumberField
          label={words.mostPlaceDays}
          description={words.mostHint}
          decimals={0}
          value={placeDaysAhead}
          onChange={setPlaceDays}
        />
        <NumberField
          label={words.offerHours}
          decimals={2}
          value={offerHours}
          onChange={setOfferHours}
        />
        <NumberField
          label={words.noShowHours}
          decimals={2}
          value={noShowHours}
          onChange={setNoShowHours}
        />
        <TextInput
          label={words.clubName}
          required
          value={name}
          onChange={(event) => setName(event.currentTarget.value)}
        />
        <TimeZoneField label={words.timeZone} value={timeZone} onChange={setTimeZone} />
        {save.isError && <Failure error={save.error} />}
        <Button type="submit" w="fit-content" loading={save.isPending}>
          {text.frame.save}
        </Button>
      </Stack>
    </form>
  );
}
