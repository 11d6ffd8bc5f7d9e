import createClient, { type Middleware } from 'openapi-fetch';
import type { components, paths } from './schema';

type Problem = components['schemas']['Problem'];

/** The service said no, and why. */
export class Refused extends Error {
  constructor(readonly problem: Problem & Record<string, unknown>) {
    super(problem.detail);
  }

  /** The code of the refusal, such as place-taken. */
  get code(): string {
    return this.problem.type.replace('/problems/', '');
  }
}

/** The service was not reached. */
export class Unreached extends Error {}

/** A request that makes or does something has one effect, however often it is sent: its key says that it is the same. */
const keepToOnce: Middleware = {
  onRequest({ request }) {
    if (request.method === 'POST' && !request.headers.has('Idempotency-Key')) {
      request.headers.set('Idempotency-Key', crypto.randomUUID());
    }
    return request;
  },
};

export const api = createClient<paths>({ baseUrl: '' });
api.use(keepToOnce);

interface Answered<Data> {
  data?: Data;
  error?: unknown;
  response: Response;
}

/** What the service answered; throws Refused or Unreached. */
export async function answer<Data>(call: Promise<Answered<Data>>): Promise<Data> {
  return (await answerWithTag(call)).data;
}

/** What the service answered, and the ETag under which it can be changed. */
export async function answerWithTag<Data>(
  call: Promise<Answered<Data>>,
): Promise<{ data: Data; etag: string }> {
  const { data, error, response } = await call.catch((cause: unknown) => {
    throw new Unreached('The service was not reached.', { cause });
  });
  if (!response.ok) throw refusedOf(error, response);
  return { data: data as Data, etag: response.headers.get('ETag') ?? '' };
}

/** The header under which something is changed or removed as it was just read. */
export async function ifMatch(read: Promise<Answered<unknown>>): Promise<{ 'If-Match': string }> {
  return { 'If-Match': (await answerWithTag(read)).etag };
}

function refusedOf(error: unknown, response: Response): Error {
  if (typeof error === 'object' && error !== null && 'type' in error) {
    return new Refused(error as Problem & Record<string, unknown>);
  }
  // A proxy in front, or a machine that is being started.
  return new Unreached(`The service answered ${String(response.status)}.`);
}

interface Pages<Item> {
  items: Item[];
}

/** The query of one page of a list: as many items as there may be, from the cursor on. */
export function pageFrom(cursor: string | undefined): { limit: number; cursor?: string } {
  return { limit: 200, ...(cursor !== undefined && { cursor }) };
}

/** All items of a list, page by page, up to `most`. `onFirst` gets those of the first page while others are on their way. */
export async function everyItem<Item>(
  page: (cursor: string | undefined) => Promise<Answered<Pages<Item>>>,
  most = 2000,
  onFirst?: (items: Item[]) => void,
): Promise<Item[]> {
  const found: Item[] = [];
  let cursor: string | undefined;
  do {
    const call = page(cursor);
    const { items } = await answer(call);
    found.push(...items);
    const isFirst = cursor === undefined;
    cursor = nextOf((await call).response);
    if (isFirst && cursor !== undefined) onFirst?.([...found]);
  } while (cursor !== undefined && found.length < most);
  return found;
}

/** The cursor in `Link: <…>; rel="next"` (RFC 8288). */
function nextOf(response: Response): string | undefined {
  const address = /<([^>]+)>;\s*rel="next"/.exec(response.headers.get('Link') ?? '')?.[1];
  if (address === undefined) return undefined;
  return new URL(address, location.origin).searchParams.get('cursor') ?? undefined;
}
