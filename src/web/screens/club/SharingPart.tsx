import { Text } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { answerWithTag, api, everyItem, pageFrom } from '../../api/client';
import { useClub } from '../../api/club';
import { text } from '../../text';
import { Loaded } from '../../ui/Loaded';
import { Sheet } from '../../ui/Sheet';
import { SharingForm } from './SharingForm';
import { decimals } from '../../ui/numbers';

const words = text.sharing;

/** How much of the room each member has booked ahead, and how much it may be. */
export function SharingPart() {
  const { clubId, role } = useClub();
  const [isSaved, setSaved] = useState(false);
  const club = useQuery({
    queryKey: ['sharing', clubId],
    queryFn: () =>
      answerWithTag(api.GET('/api/v1/clubs/{clubId}', { params: { path: { clubId } } })),
  });
  return (
    <>
      <Shares />
      {role === 'steward' && (
        <Sheet title={words.rules}>
          <Loaded query={club}>
            {({ data, etag }) => (
              <SharingForm key={etag} club={data} etag={etag} onSaved={() => setSaved(true)} />
            )}
          </Loaded>
          {isSaved && <Text role="status">{words.saved}</Text>}
        </Sheet>
      )}
    </>
  );
}

function Shares() {
  const { clubId, memberId } = useClub();
  const shares = useQuery({
    queryKey: ['fair-shares', clubId],
    queryFn: () =>
      everyItem((cursor) =>
        api.GET('/api/v1/clubs/{clubId}/fair-shares', {
          params: { path: { clubId }, query: pageFrom(cursor) },
        }),
      ),
  });
  return (
    <Sheet title={words.shares}>
      <Loaded query={shares}>
        {(items) => {
          const most = items[0]?.mostPlaceDays ?? null;
          const scale = Math.max(
            most ?? 0,
            ...items.map(({ bookedPlaceDays }) => bookedPlaceDays),
            1,
          );
          return (
            <>
              <Text>{most === null ? words.noLimit : words.limit(most)}</Text>
              <Text className="soft">{words.unit}</Text>
              <table className="plain">
                <thead>
                  <tr>
                    <th scope="col">{words.member}</th>
                    <th scope="col" className="numbers">
                      {words.booked}
                    </th>
                  </tr>
                </thead>
                <tbody>
                  {items.map((share) => (
                    <tr key={share.memberId}>
                      <th scope="row" className={share.memberId === memberId ? '' : 'light'}>
                        {share.memberName}
                        <Bar value={share.bookedPlaceDays} most={most} scale={scale} />
                      </th>
                      <td className="numbers">
                        {most === null
                          ? decimals(share.bookedPlaceDays, 1)
                          : words.of(decimals(share.bookedPlaceDays, 1), decimals(most, 1))}
                      </td>
                    </tr>
                  ))}
                </tbody>
              </table>
            </>
          );
        }}
      </Loaded>
    </Sheet>
  );
}

/** The share as a length; a stroke across where the limit is. */
function Bar({ value, most, scale }: { value: number; most: number | null; scale: number }) {
  return (
    <svg viewBox="0 0 200 10" className="share-bar" aria-hidden="true" preserveAspectRatio="none">
      <rect x="0" y="3" width="200" height="4" fill="var(--line)" />
      <rect
        x="0"
        y="1"
        width={(value / scale) * 200}
        height="8"
        fill={most !== null && value > most ? 'var(--late)' : 'var(--cool)'}
      />
      {most !== null && (
        <line
          x1={(most / scale) * 200 - 1}
          x2={(most / scale) * 200 - 1}
          y1="0"
          y2="10"
          stroke="var(--ink)"
          strokeWidth="2"
        />
      )}
    </svg>
  );
}
