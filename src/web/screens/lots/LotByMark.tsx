import { useQuery } from '@tanstack/react-query';
import { Redirect } from 'wouter';
import { answer, api } from '../../api/client';
import { useClub } from '../../api/club';
import { text } from '../../text';
import { Empty } from '../../ui/Empty';
import { Loaded } from '../../ui/Loaded';

/** Where the QR code of a label leads: the lot of that mark. */
export function LotByMark({ mark: code }: { mark: string }) {
  const { clubId } = useClub();
  const found = useQuery({
    queryKey: ['lot-by-mark', clubId, code],
    queryFn: async () =>
      (
        await answer(
          api.GET('/api/v1/clubs/{clubId}/lots', { params: { path: { clubId }, query: { code } } }),
        )
      ).items,
    retry: false,
  });
  return (
    <Loaded query={found}>
      {([lot]) =>
        lot === undefined ? (
          <Empty>{text.lots.noSuchMark(code)}</Empty>
        ) : (
          <Redirect to={`/lots/${lot.id}`} replace />
        )
      }
    </Loaded>
  );
}
