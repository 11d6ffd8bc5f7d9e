import { QueryClient } from '@tanstack/react-query';
import { Refused, Unreached } from './client';

export const queries = new QueryClient({
  defaultOptions: {
    queries: {
      staleTime: 15_000,
      // What was read last is shown while the network is away: the service worker has it.
      networkMode: 'always',
      retry: (failures, error) => error instanceof Unreached && failures < 2,
      refetchOnWindowFocus: true,
    },
    mutations: { networkMode: 'always', retry: false },
  },
});

/** Whether the service said that the person is not signed in. */
export function isSignInNeeded(error: unknown): boolean {
  return error instanceof Refused && error.code === 'sign-in-needed';
}

/** After something was done: whatever is shown of the club is read anew. */
export async function readAnew(): Promise<void> {
  await queries.invalidateQueries({
    predicate: ({ queryKey }) => queryKey[0] !== 'session' && queryKey[0] !== 'club',
  });
}
