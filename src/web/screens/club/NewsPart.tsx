import { Button, Text } from '@mantine/core';
import { useInfiniteQuery, useMutation } from '@tanstack/react-query';
import { Link } from 'wouter';
import { answer, api } from '../../api/client';
import { useClub } from '../../api/club';
import { queries } from '../../api/queries';
import { text } from '../../text';
import { Empty } from '../../ui/Empty';
import { Failure } from '../../ui/Failure';
import { Sheet } from '../../ui/Sheet';
import { useTimes } from '../../ui/times';

const words = text.club;

/** All that this person was told, read or not, the newest first. */
export function NewsPart() {
  const { clubId } = useClub();
  const times = useTimes();
  const news = useInfiniteQuery({
    queryKey: ['notices', clubId, 'all'],
    initialPageParam: '',
    queryFn: ({ pageParam }) =>
      answer(
        api.GET('/api/v1/clubs/{clubId}/notices', {
          params: {
            path: { clubId },
            query: { limit: 30, ...(pageParam !== '' && { cursor: pageParam }) },
          },
        }),
      ),
    getNextPageParam: ({ nextCursor }) => nextCursor,
  });
  const read = useMutation({
    mutationFn: () =>
      answer(api.POST('/api/v1/clubs/{clubId}/notices/all/read', { params: { path: { clubId } } })),
    onSuccess: () => queries.invalidateQueries({ queryKey: ['notices'] }),
  });
  const items = news.data?.pages.flatMap((page) => page.items) ?? [];
  if (news.isError) return <Failure error={news.error} again={() => void news.refetch()} />;
  const toMail = (
    <Text className="soft">
      <Link href="/account" className="way-in">
        {words.toMail}
      </Link>
    </Text>
  );
  if (news.isSuccess && items.length === 0) return <Empty action={toMail}>{words.noNews}</Empty>;
  return (
    <Sheet
      title={words.parts.news}
      aside={
        <Button variant="subtle" loading={read.isPending} onClick={() => read.mutate()}>
          {text.today.readAll}
        </Button>
      }
    >
      {toMail}
      <ul className="rows">
        {items.map(({ id, subject, text: told, createdAt, readAt, mailedAt }) => (
          <li key={id} className="rows-part">
            <Text fw={600}>
              {subject}
              {readAt === null && ` · ${words.unread}`}
            </Text>
            <Text>{told}</Text>
            <Text className="soft" size="sm">
              {times.dayAndTime(createdAt)}
              {mailedAt !== null && ` · ${words.mailed(times.dayAndTime(mailedAt))}`}
            </Text>
          </li>
        ))}
      </ul>
      {news.hasNextPage && (
        <Button
          variant="subtle"
          loading={news.isFetchingNextPage}
          onClick={() => void news.fetchNextPage()}
        >
          {text.frame.more}
        </Button>
      )}
    </Sheet>
  );
}
