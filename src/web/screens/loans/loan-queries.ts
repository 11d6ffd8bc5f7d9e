import { useQuery } from '@tanstack/react-query';
import { answer, api, everyItem, pageFrom } from '../../api/client';
import { useClub } from '../../api/club';
import type { components } from '../../api/schema';

export type Loan = components['schemas']['LoanResponse'];
/** What may be done with a loan: what the service says comes next, and moving the day it is wanted back by. */
export type LoanDeed = Loan['next'][number] | 'move-day';
export type LoanBalances = components['schemas']['LoanBalancesResponse'];

export function useLoans(filter: { memberId?: string; lotId?: string; state?: Loan['state'] }) {
  const { clubId } = useClub();
  return useQuery({
    queryKey: ['loans', clubId, filter],
    queryFn: () =>
      everyItem(
        (cursor) =>
          api.GET('/api/v1/clubs/{clubId}/loans', {
            params: { path: { clubId }, query: { ...filter, ...pageFrom(cursor) } },
          }),
        1000,
      ),
  });
}

export function useLoanBalances() {
  const { clubId } = useClub();
  return useQuery({
    queryKey: ['loan-balances', clubId],
    queryFn: () =>
      answer(api.GET('/api/v1/clubs/{clubId}/loans/balances', { params: { path: { clubId } } })),
  });
}
