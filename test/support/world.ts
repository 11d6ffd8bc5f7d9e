import { randomUUID } from 'node:crypto';
import request from 'supertest';
import { hashSecret, newSecret, newToken } from '../../src/platform/secrets';
import { sessionCookie } from '../../src/platform/sign-in';
import type { Role, TokenScope } from '../../src/platform/prisma-client/enums';
import { Contract } from './contract';
import type { Service } from './service';

type Method = 'get' | 'post' | 'patch' | 'put' | 'delete';

/** Somebody who sends requests. Every answer is compared with the OpenAPI document. */
export class Actor {
  constructor(
    private readonly service: Service,
    /** Null: not signed in. */
    readonly token: string | null,
    readonly personId: string = '',
    readonly memberId: string = '',
  ) {}

  get = (path: string): request.Test => this.send('get', path);
  post = (path: string, body: object = {}): request.Test => this.send('post', path).send(body);
  delete = (path: string): request.Test => this.send('delete', path);
  patch = (path: string, body: object = {}): request.Test => this.send('patch', path).send(body);
  put = (path: string, body: object = {}): request.Test => this.send('put', path).send(body);

  /** Changes a thing as it stands now: reads its ETag first. */
  async change(path: string, body: object): Promise<request.Response> {
    const { headers } = await this.get(path);
    return this.patch(path, body).set('If-Match', String(headers['etag']));
  }

  async remove(path: string): Promise<request.Response> {
    const { headers } = await this.get(path);
    return this.delete(path).set('If-Match', String(headers['etag']));
  }

  /** A request to a path below /api/v1. */
  send(method: Method, path: string): request.Test {
    const whole = `/api/v1${path}`;
    const test = request(this.service.url)[method](whole);
    if (this.token !== null) void test.set('Authorization', `Bearer ${this.token}`);
    const contract = contractOf(this.service);
    return test.expect((response) => {
      contract.check({
        method,
        path: whole.split('?')[0] ?? '',
        status: response.status,
        contentType: String(response.headers['content-type']),
        requestId: response.headers['x-request-id'],
        body: response.body as unknown,
      });
    });
  }
}

const contracts = new WeakMap<Service, Contract>();

function contractOf(service: Service): Contract {
  let contract = contracts.get(service);
  if (contract === undefined) {
    contract = new Contract(service.document);
    contracts.set(service, contract);
  }
  return contract;
}

export interface ClubWorld {
  clubId: string;
  /** Path of the club, below /api/v1. */
  path: string;
  steward: Actor;
  ada: Actor;
  ben: Actor;
}

const everyScope: TokenScope[] = ['read', 'record', 'book', 'steward'];

/** A club with a steward and two members, each with a token of every scope. */
export async function aClub(service: Service): Promise<ClubWorld> {
  const club = await service.prisma.club.create({
    data: { name: `Club ${randomUUID()}`, timeZone: 'Europe/Vienna' },
  });
  const clubId = club.id;
  return {
    clubId,
    path: `/clubs/${clubId}`,
    steward: await aMember(service, clubId, 'steward'),
    ada: await aMember(service, clubId, 'member'),
    ben: await aMember(service, clubId, 'member'),
  };
}

export function nobody(service: Service): Actor {
  return new Actor(service, null);
}

/** Somebody with an account and a token, in no club. */
export async function aPerson(service: Service, scopes = everyScope): Promise<Actor> {
  const name = `Person ${randomUUID().slice(0, 8)}`;
  const { id } = await service.prisma.person.create({
    data: { name, email: `${randomUUID()}@example.org`, passwordHash: 'cannot be matched' },
  });
  return new Actor(service, await aTokenOf(service, id, scopes), id);
}

export async function aMember(
  service: Service,
  clubId: string,
  role: Role,
  scopes = everyScope,
): Promise<Actor> {
  const person = await aPerson(service, scopes);
  const member = await service.prisma.member.create({
    data: { clubId, personId: person.personId, role },
  });
  return new Actor(service, person.token, person.personId, member.id);
}

/** The same person with another token. */
export async function withScopes(
  service: Service,
  actor: Actor,
  scopes: TokenScope[],
): Promise<Actor> {
  const token = await aTokenOf(service, actor.personId, scopes);
  return new Actor(service, token, actor.personId, actor.memberId);
}

async function aTokenOf(service: Service, personId: string, scopes: TokenScope[]): Promise<string> {
  const token = newToken();
  await service.prisma.token.create({
    data: {
      personId,
      name: 'test',
      secretHash: hashSecret(token),
      ending: token.slice(-4),
      scopes,
      expiresAt: new Date(Date.now() + 86_400_000),
    },
  });
  return token;
}

/** A signed-in browser of that person: the Cookie header it sends. */
export async function aSessionCookieOf(service: Service, personId: string): Promise<string> {
  const secret = newSecret(32);
  await service.prisma.session.create({
    data: {
      personId,
      secretHash: hashSecret(secret),
      device: 'test',
      expiresAt: new Date(Date.now() + 86_400_000),
    },
  });
  return `${sessionCookie}=${secret}`;
}
