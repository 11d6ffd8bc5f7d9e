import { useQuery } from '@tanstack/react-query';
import { remember, useRemembered } from '../ui/remembered';
import { answer, api } from './client';
import { isSignInNeeded, queries } from './queries';
import type { components } from './schema';

type Session = components['schemas']['SessionResponse'];
export type Membership = components['schemas']['Membership'];

const sessionKey = ['session'];

/** Who is signed in; null: nobody. */
export function useSession() {
  return useQuery({
    queryKey: sessionKey,
    queryFn: async (): Promise<Session | null> => {
      try {
        return await answer(api.GET('/api/v1/session'));
      } catch (error) {
        if (isSignInNeeded(error)) return null;
        throw error;
      }
    },
    staleTime: 60_000,
  });
}

/** After signing in or out, or a change of clubs: everything is read anew. */
export async function forgetEverything(): Promise<void> {
  await caches.delete('read-last').catch(() => false);
  await queries.resetQueries();
}

const clubKey = 'club';

/** Of several clubs, the one that this browser last looked at. */
export function chooseClub(clubId: string): void {
  remember(clubKey, clubId);
}

/** The club that is looked at, and as whom; null: nobody is signed in, or is in no club. */
export function useMembership(): Membership | null {
  const { data } = useSession();
  const chosen = useRemembered(clubKey);
  const clubs = data?.clubs ?? [];
  return clubs.find(({ clubId }) => clubId === chosen) ?? clubs[0] ?? null;
}
