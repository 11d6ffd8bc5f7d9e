import { Injectable } from '@nestjs/common';
import { Refusal } from '../core/refusal';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { Database } from '../platform/database';
import { pageOf, startOf, type Page } from '../platform/paging';
import { Prisma } from '../platform/prisma-client/client';
import type { SeedShelfQuery } from './seed-shelf.requests';
import { toShelfSeed, type ShelfSeedResponse } from './seed-shelf.responses';
import { knownSeed, namesOf } from './shelf-lot';
import { isPartlyOf, shelfRow, type ShelfRow } from './shelf-rows';

/** All seed of the club of which something is left: one statement for a page, what is in it reckoned in the core. */
@Injectable()
export class SeedShelfService {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  async list(caller: ClubCaller, query: SeedShelfQuery): Promise<Page<ShelfSeedResponse>> {
    const { clubId, memberId } = caller;
    const { mine, floralSourceId, grain } = query;
    const holder = mine === true ? memberId : null;
    const list = JSON.stringify(['seed-shelf', clubId, holder, floralSourceId, grain]);
    const [after] = startOf(query, list) ?? [];
    const conditions = [Prisma.sql`true`];
    if (holder !== null) conditions.push(Prisma.sql`l.holder_id = ${holder}::uuid`);
    if (grain !== undefined) conditions.push(Prisma.sql`l.grain = ${grain}::grain`);
    if (after !== undefined) conditions.push(Prisma.sql`l.id < ${after}::uuid`);
    if (floralSourceId !== undefined) conditions.push(isPartlyOf(clubId, floralSourceId));
    const now = this.clock.now();
    const [row] = await this.database.rows<ShelfRow>(
      shelfRow(clubId, now, {
        condition: Prisma.join(conditions, ' and '),
        order: Prisma.sql`l.id desc`,
        limit: query.limit + 1,
      }),
    );
    if (row === undefined) throw new Refusal('not-found');
    const names = namesOf(row);
    return pageOf(
      knownSeed(row),
      query,
      list,
      ({ lot }) => [lot.id],
      (seed) => toShelfSeed(seed, names, now),
    );
  }
}
