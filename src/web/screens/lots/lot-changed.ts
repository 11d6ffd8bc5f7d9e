import { queries } from '../../api/queries';

/** After mass moved: whatever may tell of it is read anew. */
export async function lotChanged(): Promise<void> {
  await queries.invalidateQueries({
    predicate: ({ queryKey }) => queryKey[0] !== 'session' && queryKey[0] !== 'club',
  });
}
