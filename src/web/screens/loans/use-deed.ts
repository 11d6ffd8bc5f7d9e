import { useMutation } from '@tanstack/react-query';
import { answer, api, ifMatch } from '../../api/client';
import { useClub } from '../../api/club';
import { readAnew } from '../../api/queries';
import { useSendOrKeep } from '../../offline/outbox';

/** Sends something that was done about a loan; without a network it is kept, and sent later once. */
export function useDeed(words: string, onDone: () => void) {
  const { clubId } = useClub();
  const sendOrKeep = useSendOrKeep();
  return useMutation({
    mutationFn: ({ path, body }: { path: string; body: object }) =>
      sendOrKeep(`/api/v1/clubs/${clubId}/loans${path}`, body, words),
    onSuccess: async (how) => {
      // Without a network nothing new can be read: that it is kept is told at once.
      if (how === 'kept') return;
      await readAnew();
      onDone();
    },
  });
}

/** Takes an ask or an offer back, as it stands now. */
export function useTakeBack(loanId: string, onDone: () => void) {
  const { clubId } = useClub();
  const params = { path: { clubId, id: loanId } };
  return useMutation({
    mutationFn: async () => {
      const header = await ifMatch(api.GET('/api/v1/clubs/{clubId}/loans/{id}', { params }));
      await answer(
        api.DELETE('/api/v1/clubs/{clubId}/loans/{id}', { params: { ...params, header } }),
      );
    },
    onSuccess: async () => {
      await readAnew();
      onDone();
    },
  });
}

/** Moves the day by which lent seed is wanted back; none: whenever it suits. */
export function useMoveDay(loanId: string, onDone: () => void) {
  const { clubId } = useClub();
  const params = { path: { clubId, id: loanId } };
  return useMutation({
    mutationFn: async (dueOn: string | null) => {
      const header = await ifMatch(api.GET('/api/v1/clubs/{clubId}/loans/{id}', { params }));
      await answer(
        api.PATCH('/api/v1/clubs/{clubId}/loans/{id}', {
          params: { ...params, header },
          body: { dueOn },
        }),
      );
    },
    onSuccess: async () => {
      await readAnew();
      onDone();
    },
  });
}
