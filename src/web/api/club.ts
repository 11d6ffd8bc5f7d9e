import { useQuery } from '@tanstack/react-query';
import { createContext, useContext } from 'react';
import { answer, api } from './client';
import type { Membership } from './session';

/** The club that the screens are about, and as whom they look at it. */
interface ClubSeen extends Membership {
  /** IANA name: in which the club reads its clock. */
  timeZone: string;
}

export const ClubContext = createContext<ClubSeen | null>(null);

/** The club that the screen is about. Throws outside a club's screens. */
export function useClub(): ClubSeen {
  const club = useContext(ClubContext);
  if (club === null) throw new Error('This screen belongs to a club.');
  return club;
}

export function useClubRecord(clubId: string) {
  return useQuery({
    queryKey: ['club', clubId],
    queryFn: () => answer(api.GET('/api/v1/clubs/{clubId}', { params: { path: { clubId } } })),
    staleTime: 300_000,
  });
}
