// npm run api:compare: fails when openapi.json breaks what the last release (the last tag of git) promised.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';

const root = path.resolve(import.meta.dirname, '..');

function git(...args) {
  const { status, stdout } = spawnSync('git', args, { cwd: root, encoding: 'utf8' });
  return status === 0 ? stdout : null;
}

const tag = git('describe', '--tags', '--abbrev=0')?.trim() ?? null;
const released = tag === null ? null : git('show', `${tag}:openapi.json`);
if (released === null) {
  console.log('There is no release yet to compare with.');
} else {
  // In a folder of its own: rules found in the working folder would change how differences are rated.
  const folder = mkdtempSync(path.join(os.tmpdir(), 'creaming-room-api-'));
  writeFileSync(path.join(folder, 'released.json'), released);
  const { status } = spawnSync(
    path.join(root, 'node_modules', '.bin', 'redocly'),
    ['diff', 'released.json', path.join(root, 'openapi.json')],
    {
      cwd: folder,
      env: {
        ...process.env,
        REDOCLY_TELEMETRY: 'off',
        REDOCLY_SUPPRESS_UPDATE_NOTICE: 'true',
      },
      stdio: 'inherit',
      shell: process.platform === 'win32',
    },
  );
  rmSync(folder, { recursive: true });
  console.log(`Compared with ${tag}.`);
  process.exitCode = status ?? 1;
}
