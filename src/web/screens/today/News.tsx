import { Button, Text } from '@mantine/core';
import { useMutation, useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { answer, api } from '../../api/client';
import { useClub } from '../../api/club';
import { queries } from '../../api/queries';
import { text } from '../../text';
import { Sheet } from '../../ui/Sheet';
import { useTimes } from '../../ui/times';

const words = text.today;
const shownAtFirst = 2;

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
            params: { path: { clubId }, query: { unread: true, limit: 20 } },
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
  const [isAll, setAll] = useState(false);
  const items = news.data ?? [];
  if (items.length === 0) return null;
  return (
    <Sheet
      title={words.news}
      aside={
        <Button variant="subtle" loading={read.isPending} onClick={() => read.mutate()}>
          {words.readAll}
        </Button>
      }
    >
      <ul className="rows">
        {(isAll ? items : items.slice(0, shownAtFirst)).map(
          ({ id, subject, text: told, createdAt }) => (
            <li key={id}>
              <Text fw={600}>{subject}</Text>
              <Text>{told}</Text>
              <Text className="soft" size="sm">
                {times.dayAndTime(createdAt)}
              </Text>
            </li>
          ),
        )}
      </ul>
      {!isAll && items.length > shownAtFirst && (
        <Button variant="subtle" onClick={() => setAll(true)}>
          {text.frame.more}
        </Button>
      )}
    </Sheet>
  );
}
