import { Button, Group, Text } from '@mantine/core';
import { useMutation, useQuery } from '@tanstack/react-query';
import { Link } from 'wouter';
import { answer, api } from '../../api/client';
import { useClub } from '../../api/club';
import { queries } from '../../api/queries';
import { text } from '../../text';
import { useTimes } from '../../ui/times';

const words = text.today;
const mostRead = 20;

/** What others did that concerns this person, until they have read it. */
export function News() {
  const { clubId } = useClub();
  const times = useTimes();
  const news = useQuery({
    queryKey: ['notices', clubId],
    queryFn: async () =>
      (
        await answer(
          api.GET('/api/v1/clubs/{clubId}/notices', {
            params: { path: { clubId }, query: { unread: true, limit: mostRead } },
          }),
        )
      ).items,
    refetchInterval: 60_000,
  });
  const read = useMutation({
    mutationFn: () =>
      answer(api.POST('/api/v1/clubs/{clubId}/notices/all/read', { params: { path: { clubId } } })),
    onSuccess: () => queries.invalidateQueries({ queryKey: ['notices'] }),
  });
  const items = news.data ?? [];
  const [newest] = items;
  if (newest === undefined) return null;
  const count = items.length === mostRead ? `${String(mostRead)}+` : String(items.length);
  return (
    <details className="sheet news no-print">
      <summary>
        <span>
          <strong>{words.newsCount(count)}</strong> · {newest.subject}
        </span>
      </summary>
      <ul className="rows">
        {items.map(({ id, subject, text: told, createdAt }) => (
          <li key={id} className="rows-part">
            <Text fw={600}>{subject}</Text>
            <Text>{told}</Text>
            <Text className="soft" size="sm">
              {times.dayAndTime(createdAt)}
            </Text>
          </li>
        ))}
      </ul>
      <Group mt="sm">
        <Button variant="default" loading={read.isPending} onClick={() => read.mutate()}>
          {words.readAll}
        </Button>
        <Button component={Link} href="/club/news" variant="subtle">
          {words.allNews}
        </Button>
      </Group>
    </details>
  );
}
