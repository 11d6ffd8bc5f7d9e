import type { UseQueryResult } from '@tanstack/react-query';
import type { ReactNode } from 'react';
import { Unreached } from '../../api/client';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';

/** Fields to the left, what comes of them to the right; read out when it changes. */
export function Asked<Answer>({
  fields,
  query,
  children,
}: {
  fields: ReactNode;
  query: UseQueryResult<Answer>;
  children: (answer: Answer) => ReactNode;
}) {
  return (
    <div className="asked">
      <div className="fields">{fields}</div>
      <div aria-live="polite" aria-busy={query.isFetching}>
        {query.isError ? (
          <>
            <Failure error={query.error} />
            {query.error instanceof Unreached && <p>{text.calculators.onlyKept}</p>}
          </>
        ) : query.data === undefined ? (
          <p className="soft">{query.isFetching ? text.calculators.reckoning : ''}</p>
        ) : (
          children(query.data)
        )}
      </div>
    </div>
  );
}
