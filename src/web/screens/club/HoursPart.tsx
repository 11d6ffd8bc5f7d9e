import { Text } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { answerWithTag, api } from '../../api/client';
import { useClub } from '../../api/club';
import { text } from '../../text';
import { Loaded } from '../../ui/Loaded';
import { Sheet } from '../../ui/Sheet';
import { ClosedDays } from './ClosedDays';
import { WeekForm, WeekTable } from './Week';

/** When the room is open, by the clock of the club; and the days on which nobody comes in. */
export function HoursPart() {
  const { clubId, role } = useClub();
  const [isSaved, setSaved] = useState(false);
  const hours = useQuery({
    queryKey: ['opening-hours', clubId],
    queryFn: () =>
      answerWithTag(
        api.GET('/api/v1/clubs/{clubId}/opening-hours', { params: { path: { clubId } } }),
      ),
  });
  return (
    <>
      <Sheet title={text.club.parts.hours}>
        <Loaded query={hours}>
          {({ data, etag }) =>
            role === 'steward' ? (
              <WeekForm key={etag} hours={data.hours} etag={etag} onSaved={() => setSaved(true)} />
            ) : (
              <WeekTable hours={data.hours} />
            )
          }
        </Loaded>
        {isSaved && <Text role="status">{text.club.saved}</Text>}
      </Sheet>
      <ClosedDays />
    </>
  );
}
