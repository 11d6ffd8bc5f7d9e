// npm run api:lint: openapi.json by the rules of Redocly and Spectral (OWASP's among them), which stand beside this file.
import { spawnSync } from 'node:child_process';
import path from 'node:path';

const folder = import.meta.dirname;
const root = path.resolve(folder, '..');
const environment = {
  ...process.env,
  REDOCLY_TELEMETRY: 'off',
  REDOCLY_SUPPRESS_UPDATE_NOTICE: 'true',
};

function run(command, ...args) {
  const { status, error } = spawnSync(path.join(root, 'node_modules', '.bin', command), args, {
    cwd: root,
    env: environment,
    stdio: 'inherit',
    shell: process.platform === 'win32',
  });
  if (error) throw error;
  return status === 0;
}

const results = [
  run('redocly', 'lint', '--config', 'api-lint/redocly.yaml', 'openapi.json'),
  run('spectral', 'lint', '-r', 'api-lint/spectral.yaml', '-F', 'warn', 'openapi.json'),
];
process.exitCode = results.every(Boolean) ? 0 : 1;
