import { Injectable } from '@nestjs/common';
import { Refusal } from '../core/refusal';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import { Database, type Transaction } from '../platform/database';
import { refuseIfStale } from '../platform/entity-tag';
import { pageOf, startOf, type Page, type PageQuery } from '../platform/paging';
import { Prisma } from '../platform/prisma-client/client';
import type { FloralSourceChange, FloralSourceRequest } from './floral-sources.requests';
import {
  toFloralSourceResponse,
  type FloralSourceResponse,
  type FloralSourceRow,
} from './floral-sources.responses';

@Injectable()
export class FloralSources {
  constructor(private readonly database: Database) {}

  async enter(caller: ClubCaller, request: FloralSourceRequest): Promise<FloralSourceResponse> {
    const { name, grain, sets, note } = request;
    const values = { name, grain, sets, note };
    return this.database.write(caller, async (tx) => {
      const row = await tx.floralSource.create({ data: { clubId: caller.clubId, ...values } });
      await audit(tx, caller, 'floral-source.entered', row.id, values);
      return toFloralSourceResponse(row);
    });
  }

  async list(caller: ClubCaller, query: PageQuery): Promise<Page<FloralSourceResponse>> {
    const list = `floral sources of ${caller.clubId}`;
    const [after = null] = startOf(query, list) ?? [];
    const rows = await this.database.rows<FloralSourceRow>(Prisma.sql`
      ${floralSources(caller, null)} and (${after}::text is null or name > ${after}::text)
      order by name limit ${query.limit + 1}`);
    return pageOf(rows, query, list, (row) => [row.name], toFloralSourceResponse);
  }

  async one(caller: ClubCaller, id: string): Promise<FloralSourceResponse> {
    const [row] = await this.database.rows<FloralSourceRow>(floralSources(caller, id));
    return toFloralSourceResponse(found(row));
  }

  async correct(
    caller: ClubCaller,
    id: string,
    request: FloralSourceChange,
  ): Promise<FloralSourceResponse> {
    const { clubId } = caller;
    return this.database.write(caller, async (tx) => {
      const row = await locked(tx, caller, id);
      refuseIfStale(caller, toFloralSourceResponse(row));

      const { name = row.name, grain = row.grain, sets = row.sets, note = row.note } = request;
      const values = { name, grain, sets, note };
      await tx.floralSource.update({ where: { clubId_id: { clubId, id } }, data: values });
      const before = { name: row.name, grain: row.grain, sets: row.sets, note: row.note };
      await audit(tx, caller, 'floral-source.corrected', id, { from: before, to: values });
      return toFloralSourceResponse({ ...values, id: row.id });
    });
  }

  async strikeOff(caller: ClubCaller, id: string): Promise<void> {
    const { clubId } = caller;
    await this.database.write(caller, async (tx) => {
      const row = await locked(tx, caller, id);
      refuseIfStale(caller, toFloralSourceResponse(row));

      await tx.floralSource.delete({ where: { clubId_id: { clubId, id } } });
      await audit(tx, caller, 'floral-source.struck-off', id, { name: row.name });
    });
  }
}

/** The club's floral sources, or the one with that id. */
function floralSources({ clubId }: ClubCaller, id: string | null): Prisma.Sql {
  return Prisma.sql`
    select id, name, grain, sets, note from floral_source
    where club_id = ${clubId}::uuid and (${id}::uuid is null or id = ${id}::uuid)`;
}

async function locked(tx: Transaction, caller: ClubCaller, id: string): Promise<FloralSourceRow> {
  const [row] = await tx.$queryRaw<FloralSourceRow[]>(
    Prisma.sql`${floralSources(caller, id)} for update`,
  );
  return found(row);
}

function found(row: FloralSourceRow | undefined): FloralSourceRow {
  if (row === undefined) throw new Refusal('not-found');
  return row;
}
