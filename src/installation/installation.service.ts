import { Inject, Injectable } from '@nestjs/common';
import { Database } from '../platform/database';
import { Prisma } from '../platform/prisma-client/client';
import { settingsToken, type Settings } from '../platform/settings';
import type { Demo, InstallationResponse } from './installation.responses';

@Injectable()
export class Installation {
  constructor(
    private readonly database: Database,
    @Inject(settingsToken) private readonly settings: Settings,
  ) {}

  async show(): Promise<InstallationResponse> {
    const [row] = await this.database.rows<{ isEmpty: boolean }>(
      Prisma.sql`select not exists (select from person) as "isEmpty"`,
    );
    return { isEmpty: row?.isEmpty ?? true, demo: await this.demo() };
  }

  /** Only those who are there already: the demo plays its people in one after the other. */
  private async demo(): Promise<Demo | null> {
    const { demo } = this.settings;
    if (demo === null) return null;
    const rows = await this.database.rows<{ email: string }>(
      Prisma.sql`select email from person where email = any(${demo.accounts.map(({ email }) => email)}::text[])`,
    );
    const there = new Set(rows.map(({ email }) => email));
    return { ...demo, accounts: demo.accounts.filter(({ email }) => there.has(email)) };
  }
}
