const busyStatuses = new Set([429, 503]);
const triesWhenBusy = 6;
const requestsAtATime = 6;

/** An answer that says no, or that something is wrong (RFC 9457). */
export class ApiRefusal extends Error {
  constructor(
    readonly status: number,
    /** Such as not-enough-mass. */
    readonly code: string,
    request: string,
    detail: string,
  ) {
    super(`${request} answered ${status} ${code}: ${detail}`);
  }
}

/** How a caller shows who they are: a token for scripts, or the cookie of a session. */
export type SignedInBy = { token: string } | { cookie: string } | null;

/** Sends requests below /api/v1 as one person. All clients of an address share its connections, a few requests at a time. */
export class ApiClient {
  constructor(
    readonly address: string,
    private readonly signedInBy: SignedInBy = null,
    private readonly gate = new Gate(requestsAtATime),
  ) {}

  /** The same service, as somebody else. */
  as(signedInBy: SignedInBy): ApiClient {
    return new ApiClient(this.address, signedInBy, this.gate);
  }

  async get<Answer>(path: string): Promise<Answer> {
    return (await this.send('GET', path)).body as Answer;
  }

  /**
   * Makes or does something. With the same key it happens once and is answered alike, however often it is sent: so it can be sent
   * again when the answer was lost. Without a key a repeat is a request of its own.
   */
  async post<Answer>(path: string, key: string | null, body: object = {}): Promise<Answer> {
    const headers: Record<string, string> = key === null ? {} : { 'idempotency-key': `"${key}"` };
    return (await this.send('POST', path, headers, body)).body as Answer;
  }

  /** Changes a thing as it stands now: the service refuses when somebody else changed it in between. */
  async patch<Answer>(path: string, body: object): Promise<Answer> {
    const { headers } = await this.send('GET', path);
    const tag = headers.get('etag') ?? '';
    return (await this.send('PATCH', path, { 'if-match': tag }, body)).body as Answer;
  }

  /** Signs in with a password, as a browser does. */
  async signIn<Answer>(email: string, password: string): Promise<[ApiClient, Answer]> {
    const { headers, body } = await this.send('POST', '/session', {}, { email, password });
    const cookie = headers.getSetCookie()[0]?.split(';')[0] ?? '';
    return [this.as({ cookie }), body as Answer];
  }

  private async send(
    method: string,
    path: string,
    headers: Record<string, string> = {},
    body?: object,
  ): Promise<{ headers: Headers; body: unknown }> {
    const request = {
      method,
      headers: {
        ...headers,
        ...this.credentials(),
        ...(body && { 'content-type': 'application/json' }),
      },
      ...(body && { body: JSON.stringify(body) }),
    };
    for (let tries = 1; ; tries++) {
      const answer = await this.gate.run(async () => {
        const response = await fetch(`${this.address}/api/v1${path}`, request);
        const text = await response.text();
        return { response, body: text === '' ? null : (JSON.parse(text) as unknown) };
      });
      const { response } = answer;
      if (response.ok) return { headers: response.headers, body: answer.body };

      const refusal = refusalOf(response.status, `${method} ${path}`, answer.body);
      const isBusy = busyStatuses.has(refusal.status) || refusal.code === 'request-running';
      if (!isBusy || tries === triesWhenBusy) throw refusal;
      const seconds = Number(response.headers.get('retry-after') ?? 1);
      await new Promise((resolve) => setTimeout(resolve, seconds * 1000));
    }
  }

  private credentials(): Record<string, string> {
    if (this.signedInBy === null) return {};
    if ('token' in this.signedInBy) return { authorization: `Bearer ${this.signedInBy.token}` };
    // A cookie counts only with the sign that the request comes from the service's own pages.
    return { cookie: this.signedInBy.cookie, origin: this.address };
  }
}

function refusalOf(status: number, request: string, body: unknown): ApiRefusal {
  const { type = '', detail = '' } = (body ?? {}) as { type?: string; detail?: string };
  return new ApiRefusal(status, type.replace('/problems/', ''), request, detail);
}

/** Lets a few pass at a time; the others wait in line. */
class Gate {
  private readonly waiting: (() => void)[] = [];
  private free: number;

  constructor(places: number) {
    this.free = places;
  }

  async run<Answer>(work: () => Promise<Answer>): Promise<Answer> {
    if (this.free > 0) this.free -= 1;
    else await new Promise<void>((resolve) => this.waiting.push(resolve));
    try {
      return await work();
    } finally {
      const next = this.waiting.shift();
      if (next === undefined) this.free += 1;
      else next();
    }
  }
}
