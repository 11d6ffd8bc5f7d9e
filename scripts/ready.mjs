// Makes a checkout ready to run: packages as in package-lock.json, the Prisma client, the compiled program. Does only what has not
// been done since the last change, so that a second start is quick.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import path from 'node:path';

const root = path.resolve(import.meta.dirname, '..');

// What is made from the rest.
const made = new Set(['prisma-client', 'schema.d.ts']);

function newest(...places) {
  let time = 0;
  for (const place of places) {
    const whole = path.join(root, place);
    if (!existsSync(whole)) continue;
    const { mtimeMs } = statSync(whole);
    const within = statSync(whole).isDirectory()
      ? readdirSync(whole).filter((name) => !made.has(name))
      : [];
    time = Math.max(time, mtimeMs, newest(...within.map((name) => path.join(place, name))));
  }
  return time;
}

function run(command, args, environment = {}) {
  const { status, error } = spawnSync(command, args, {
    cwd: root,
    stdio: 'inherit',
    shell: process.platform === 'win32',
    env: { ...process.env, ...environment },
  });
  if (status !== 0) {
    console.error(error ?? `${command} ${args.join(' ')} ended with ${status}.`);
    process.exit(1);
  }
}

function step(words, isDone, work) {
  if (isDone) return;
  console.log(words);
  work();
}

const tool = (name) => path.join('node_modules', '.bin', name);

// By content: a checkout gives every file a new time, and an install takes a minute.
const lock = createHash('sha256')
  .update(readFileSync(path.join(root, 'package-lock.json')))
  .digest('hex');
const installed = path.join(root, 'node_modules', '.installed-lock');
step(
  'Installing packages …',
  existsSync(installed) && readFileSync(installed, 'utf8') === lock,
  () => {
    run('npm', ['ci', '--no-audit', '--no-fund', '--loglevel=error']);
    writeFileSync(installed, lock);
  },
);
step(
  'Generating the database client …',
  newest('src/platform/prisma-client') >= newest('prisma/schema.prisma'),
  // It asks for a schema engine, which it then does not use here: any program will do.
  () =>
    run(tool('prisma'), ['generate', '--no-hints'], {
      PRISMA_SCHEMA_ENGINE_BINARY: process.execPath,
      CHECKPOINT_DISABLE: '1',
    }),
);
// The page is built apart, and its client, made below, is no reason to compile again.
const service = readdirSync(path.join(root, 'src'))
  .filter((name) => name !== 'web')
  .map((name) => path.join('src', name));
step(
  'Compiling …',
  newest('dist/tsconfig.build.tsbuildinfo') >=
    newest(
      ...service,
      'demo',
      'tsconfig.json',
      'tsconfig.build.json',
      'src/platform/prisma-client',
    ),
  () => run(tool('tsc'), ['-p', 'tsconfig.build.json']),
);
const schema = 'src/web/api/schema.d.ts';
step('Generating the page’s client …', newest(schema) >= newest('openapi.json'), () =>
  run(tool('openapi-typescript'), ['openapi.json', '-o', schema]),
);
step(
  'Building the page …',
  newest('dist/web/index.html') >= newest('src/web', schema, 'vite.config.mjs'),
  () => run(tool('vite'), ['build', '--logLevel', 'warn']),
);
