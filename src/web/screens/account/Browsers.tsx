import { Button } from '@mantine/core';
import { useMutation, useQuery } from '@tanstack/react-query';
import { answer, api, everyItem, pageFrom } from '../../api/client';
import { queries } from '../../api/queries';
import type { components } from '../../api/schema';
import { text } from '../../text';
import { locale } from '../../text/locale';
import { Failure } from '../../ui/Failure';
import { Loaded } from '../../ui/Loaded';
import { Sheet } from '../../ui/Sheet';

const words = text.club;

type OpenSession = components['schemas']['OpenSession'];

/** The browsers in which this person is signed in: one that was left open elsewhere can be signed out. */
export function Browsers() {
  const sessions = useQuery({
    queryKey: ['sessions'],
    queryFn: () =>
      everyItem((cursor) => api.GET('/api/v1/sessions', { params: { query: pageFrom(cursor) } })),
  });
  return (
    <Sheet title={words.browsers}>
      <Loaded query={sessions}>
        {(items) => (
          <ul className="rows">
            {items.map((session) => (
              <li key={session.id}>
                <Row session={session} />
              </li>
            ))}
          </ul>
        )}
      </Loaded>
    </Sheet>
  );
}

function Row({ session: { id, device, lastUsedAt, isThisOne } }: { session: OpenSession }) {
  const end = useMutation({
    mutationFn: () => answer(api.DELETE('/api/v1/sessions/{id}', { params: { path: { id } } })),
    onSuccess: () => queries.invalidateQueries({ queryKey: ['sessions'] }),
  });
  return (
    <>
      <div className="row wraps">
        <span className="long-words">
          {device === '' ? words.unnamedBrowser : device}
          <span className="soft">
            {isThisOne
              ? words.thisBrowser
              : words.lastUsed(new Date(lastUsedAt).toLocaleString(locale))}
          </span>
        </span>
        {!isThisOne && (
          <Button variant="default" loading={end.isPending} onClick={() => end.mutate()}>
            {words.endSession}
          </Button>
        )}
      </div>
      {end.isError && <Failure error={end.error} />}
    </>
  );
}
