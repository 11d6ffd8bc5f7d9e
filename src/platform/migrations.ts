import { mkdir, readdir, readFile, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { bindMigrationAwareSqlAdapterFactory } from '@prisma/driver-adapter-utils';
import * as engineModule from '@prisma/schema-engine-wasm/schema_engine_bg';
import pg from 'pg';
import { installJobs } from './jobs';
import { migrationAdapter } from './migration-adapter';
import { projectFolder } from './project-folder';

// Prisma's own schema engine, in its WebAssembly build: the native one is a download that an offline machine cannot make.

// Node has it; its type declarations do not.
declare const WebAssembly: {
  instantiate(code: Uint8Array, imports: object): Promise<{ instance: { exports: object } }>;
};

const prismaFolder = path.join(projectFolder, 'prisma');
const migrationsFolder = path.join(prismaFolder, 'migrations');
const everything = { externalTables: [], externalEnums: [] };

/** Applies the migrations that the database has not seen, and those of the job queue; answers the names of ours. */
export function applyMigrations(databaseUrl: string): Promise<string[]> {
  return withEngine(databaseUrl, async (engine) => {
    const lock = new pg.Client({ connectionString: databaseUrl });
    await lock.connect();
    try {
      // Of several copies that start at once, one migrates and the others wait for it.
      await lock.query("select pg_advisory_lock(hashtext('creaming-room migrations'))");
      const migrationsList = await readMigrations();
      const done = await engine.applyMigrations({ migrationsList, filters: everything });
      await installJobs(databaseUrl);
      return done.appliedMigrationNames;
    } finally {
      await lock.end();
    }
  });
}

/** Which migrations the database has not seen, and which of those it has seen were edited since. */
export function migrationStatus(
  databaseUrl: string,
): Promise<{ pending: string[]; edited: string[] }> {
  return withEngine(databaseUrl, async (engine) => {
    const { history, editedMigrationNames } = await engine.diagnoseMigrationHistory({
      migrationsList: await readMigrations(),
      optInToShadowDatabase: false,
      filters: everything,
    });
    const isBehind = history !== null && 'unappliedMigrationNames' in history;
    return {
      pending: isBehind ? history.unappliedMigrationNames : [],
      edited: editedMigrationNames,
    };
  });
}

/**
 * The SQL that leads from the migrations to schema.prisma: a comment and nothing else when they agree. Works in a shadow database that
 * it makes beside the given one and drops again.
 */
export function differenceToSchema(databaseUrl: string): Promise<string> {
  return withEngine(databaseUrl, async (engine) => {
    const { stdout } = await engine.diff({
      from: { tag: 'migrations', ...(await readMigrations()) },
      to: { tag: 'schemaDatamodel', files: [await readSchema()] },
      script: true,
      exitCode: null,
      filters: everything,
    });
    return stdout ?? '';
  });
}

/** Writes the difference as a new migration folder; answers its path. */
export async function writeMigration(
  databaseUrl: string,
  name: string,
  now: Date,
): Promise<string> {
  if (!/^[a-z0-9_]+$/.test(name)) {
    throw new Error('A migration is named in lower case with underscores: what_changed.');
  }
  const sql = await differenceToSchema(databaseUrl);
  const time = now.toISOString().replace(/\D/g, '').slice(0, 14);
  const folder = path.join(migrationsFolder, `${time}_${name}`);
  await mkdir(folder, { recursive: true });
  await writeFile(path.join(folder, 'migration.sql'), sql);
  return folder;
}

async function withEngine<Result>(
  databaseUrl: string,
  work: (engine: engineModule.SchemaEngine) => Promise<Result>,
): Promise<Result> {
  await loadEngine();
  const adapter = migrationAdapter(databaseUrl);
  try {
    const schema = await readSchema();
    const engine = await engineModule.SchemaEngine.new(
      { datamodels: [[schema.path, schema.content]] },
      () => undefined,
      bindMigrationAwareSqlAdapterFactory(adapter),
    );
    return await work(engine);
  } finally {
    await adapter.close();
  }
}

let engineLoading: Promise<void> | undefined;

function loadEngine(): Promise<void> {
  engineLoading ??= (async () => {
    // Where the engine leaves its last words.
    Object.assign(globalThis, {
      PRISMA_WASM_PANIC_REGISTRY: { set_message: (words: string) => console.error(words) },
    });
    const folder = path.dirname(require.resolve('@prisma/schema-engine-wasm/schema_engine_bg'));
    const { instance } = await WebAssembly.instantiate(
      await readFile(path.join(folder, 'schema_engine_bg.wasm')),
      { './schema_engine_bg.js': engineImports() },
    );
    const engineExports = instance.exports as { __wbindgen_start?: () => void };
    engineModule.__wbg_set_wasm(engineExports);
    engineExports.__wbindgen_start?.();
  })();
  return engineLoading;
}

/** What the engine calls. The time limits that it sets itself must not keep the process running after its work is done. */
function engineImports(): object {
  const withoutHold = (work: () => void, waitMs: number) => setTimeout(work, waitMs >>> 0).unref();
  return Object.fromEntries(
    Object.entries(engineModule).map(([name, member]) => [
      name,
      name.startsWith('__wbg_setTimeout_') ? withoutHold : (member as unknown),
    ]),
  );
}

async function readSchema(): Promise<{ path: string; content: string }> {
  return {
    path: 'schema.prisma',
    content: await readFile(path.join(prismaFolder, 'schema.prisma'), 'utf8'),
  };
}

async function readMigrations() {
  const entries = await readdir(migrationsFolder, { withFileTypes: true }).catch(() => []);
  const names = entries.filter((entry) => entry.isDirectory()).map((entry) => entry.name);
  const migrationDirectories = await Promise.all(
    names.sort().map(async (name) => ({
      path: name,
      migrationFile: {
        path: 'migration.sql',
        content: {
          tag: 'ok' as const,
          value: await readFile(path.join(migrationsFolder, name, 'migration.sql'), 'utf8'),
        },
      },
    })),
  );
  return {
    baseDir: migrationsFolder,
    lockfile: { path: 'migration_lock.toml', content: 'provider = "postgresql"\n' },
    shadowDbInitScript: '',
    migrationDirectories,
  };
}
