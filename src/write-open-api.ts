import { writeFile } from 'node:fs/promises';
import path from 'node:path';
import { dress } from './app';
import { projectFolder } from './platform/project-folder';
import { readSettings } from './platform/settings';

/** npm run api:write: writes the OpenAPI document of what is served into openapi.json. It needs no database: nothing is asked of one. */
async function writeOpenApi(): Promise<void> {
  const app = await dress('postgres://127.0.0.1:1/none', readSettings({ LOG_LEVEL: 'silent' }));
  const { payload } = await app.inject({ method: 'GET', url: '/api/openapi.json' });
  await app.close();
  const document = JSON.stringify(JSON.parse(payload), null, 2);
  await writeFile(path.join(projectFolder, 'openapi.json'), `${document}\n`);
}

writeOpenApi().catch((error: unknown) => {
  console.error(error);
  process.exitCode = 1;
});
