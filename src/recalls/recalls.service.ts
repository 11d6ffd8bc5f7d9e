import { Injectable } from '@nestjs/common';
import { Temporal } from '@js-temporal/polyfill';
import { Refusal } from '../core/refusal';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { Database, type Transaction } from '../platform/database';
import type { Prisma } from '../platform/prisma-client/client';
import { recallCsv } from './recall-csv';
import { recallPage } from './recall-page';
import { recallReport } from './recall-report';
import { recallRow, type RecallRow } from './recall-rows';
import type { RecallQuery } from './recalls.requests';
import type { RecallResponse } from './recalls.responses';

/** Finds all that a suspect lot is in: one statement for the graph and what stands beside it, the masses in the core. */
@Injectable()
export class RecallsService {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  async report(caller: ClubCaller, id: string, query: RecallQuery): Promise<RecallResponse> {
    return (await this.trace(caller, id, query)).report;
  }

  /** The whole report, read in a transaction. */
  async reportWithin(tx: Transaction, caller: ClubCaller, id: string): Promise<RecallResponse> {
    return (await this.trace(caller, id, {}, (statement) => tx.$queryRaw(statement))).report;
  }

  async table(caller: ClubCaller, id: string, query: RecallQuery): Promise<string> {
    return recallCsv((await this.trace(caller, id, query)).report);
  }

  async page(caller: ClubCaller, id: string, query: RecallQuery): Promise<string> {
    const { row, report } = await this.trace(caller, id, query);
    const today = Temporal.Instant.fromEpochMilliseconds(this.clock.now().getTime())
      .toZonedDateTimeISO(row.timeZone)
      .toPlainDate()
      .toString();
    return recallPage(row.clubName, today, report);
  }

  private async trace(
    { clubId }: ClubCaller,
    id: string,
    query: RecallQuery,
    read: (statement: Prisma.Sql) => Promise<RecallRow[]> = (statement) =>
      this.database.rows(statement),
  ) {
    const lotId = id.toLowerCase();
    const [row] = await read(recallRow(clubId, lotId, this.clock.now()));
    const suspect = row?.lots.find((lot) => lot.lotId === lotId);
    if (row === undefined || suspect === undefined) throw new Refusal('not-found');
    return { row, report: recallReport(row, suspect, query) };
  }
}
