import { Button, Group, Stack, TextInput } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState, type SyntheticEvent } from 'react';
import { answer, answerWithTag, api } from '../../api/client';
import { useClub } from '../../api/club';
import { readAnew } from '../../api/queries';
import { text } from '../../text';
import { Chips } from '../../ui/Chips';
import { Failure } from '../../ui/Failure';
import { instantOf } from '../../ui/times';
import { WhenField } from '../../ui/WhenField';
import type { Duty, Station } from '../club/club-queries';
import { InTheWay } from './InTheWay';
import type { DutyWindow } from './station-queries';

const words = text.stations;

/** A new duty window, or one that is changed. */
export function DutyWindowForm({
  station,
  window,
  onDone,
}: {
  station: Station;
  window: DutyWindow | null;
  onDone: () => void;
}) {
  const { clubId, timeZone } = useClub();
  const summer = nextSummer(timeZone);
  const [duty, setDuty] = useState<Duty>(window?.duty ?? summerDuty(station));
  const [startsAt, setStart] = useState(window?.startsAt ?? summer.startsAt);
  const [endsAt, setEnd] = useState(window?.endsAt ?? summer.endsAt);
  const [note, setNote] = useState(window?.note ?? '');
  const save = useMutation({
    mutationFn: async () => {
      const body = { duty, startsAt, endsAt, note };
      const path = { clubId, stationId: station.id };
      if (window === null) {
        return answer(
          api.POST('/api/v1/clubs/{clubId}/stations/{stationId}/duty-windows', {
            params: { path },
            body,
          }),
        );
      }
      const one = { ...path, id: window.id };
      const { etag } = await answerWithTag(
        api.GET('/api/v1/clubs/{clubId}/stations/{stationId}/duty-windows/{id}', {
          params: { path: one },
        }),
      );
      return answer(
        api.PATCH('/api/v1/clubs/{clubId}/stations/{stationId}/duty-windows/{id}', {
          params: { path: one, header: { 'If-Match': etag } },
          body,
        }),
      );
    },
    onSuccess: async () => {
      await readAnew();
      onDone();
    },
  });
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    save.mutate();
  };
  return (
    <form onSubmit={submit} className="rows-part">
      <Stack>
        <Chips
          label={words.windowDuty}
          of={
            Object.fromEntries(
              station.duties.map((one) => [one.duty, text.room.duties[one.duty]]),
            ) as Record<Duty, string>
          }
          value={duty}
          onChange={setDuty}
        />
        <div className="pair">
          <WhenField label={words.from} value={startsAt} onChange={setStart} />
          <WhenField label={words.until} value={endsAt} onChange={setEnd} />
        </div>
        <TextInput
          label={words.note}
          placeholder={words.notePlaceholder}
          value={note}
          onChange={(event) => setNote(event.currentTarget.value)}
        />
        {save.isError && <Failure error={save.error} />}
        <InTheWay error={save.error} />
        <Group>
          <Button type="submit" loading={save.isPending}>
            {words.saveWindow}
          </Button>
          <Button variant="subtle" onClick={onDone}>
            {text.frame.cancel}
          </Button>
        </Group>
      </Stack>
    </form>
  );
}

/** What a cabinet is usually kept for in summer, where it can be. */
function summerDuty({ duties }: Station): Duty {
  return duties.some(({ duty }) => duty === 'cool') ? 'cool' : (duties[0]?.duty ?? 'warm');
}

/** The summer that is still to begin, of the northern half of the earth: something to begin with. */
function nextSummer(timeZone: string): { startsAt: string; endsAt: string } {
  const now = new Date();
  const isOver = now.toISOString() >= instantOf(`${now.getUTCFullYear()}-06-01T00:00`, timeZone);
  const year = now.getUTCFullYear() + (isOver ? 1 : 0);
  return {
    startsAt: instantOf(`${year}-06-01T00:00`, timeZone),
    endsAt: instantOf(`${year}-09-01T00:00`, timeZone),
  };
}
