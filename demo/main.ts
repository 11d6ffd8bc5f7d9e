import { fork } from 'node:child_process';
import { once } from 'node:events';
import { createServer } from 'node:net';
import path from 'node:path';
import { readSettings, type DemoAccounts, type Settings } from '../src/platform/settings';
import { fail, serve, stopWhenAsked, type Serving } from '../src/serve';
import { club, demoPassword, emailOf, members } from './club';
import { startAgain } from './start-again';

/** npm run demo: the service with an invented club in it, in a database of its own. */
async function main(): Promise<void> {
  const settings = await demoSettings();
  const serving = await serve(settings);
  const asked = new AbortController();
  for (const signal of ['SIGINT', 'SIGTERM'] as const) {
    process.once(signal, () => {
      asked.abort();
    });
  }
  stopWhenAsked(serving);
  try {
    await letPlay(serving, settings);
  } catch (error) {
    await serving.stop();
    if (!asked.signal.aborted) throw error;
    console.log(startAgain(settings.dataFolder));
  }
}

/** As the environment says, but never in a database that somebody else uses, and at a port that is free. */
async function demoSettings(): Promise<Settings> {
  const wanted = readSettings({
    DATA_DIR: '.data/demo',
    LOG_LEVEL: 'warn',
    ...process.env,
    DATABASE_URL: undefined,
  });
  let { port } = wanted;
  while (!(await isFree(wanted.host, port))) port += 1;
  return { ...wanted, port, demo: demoAccounts() };
}

/** The door offers them: nobody else's data is behind it. */
function demoAccounts(): DemoAccounts {
  const accounts = members.map((member) => ({
    name: member.name,
    email: emailOf(member),
    role: member.role,
  }));
  return { clubName: club.name, password: demoPassword, accounts };
}

/** Lets the player do its part, in a process of its own: the service stays as small as it is in real use. */
async function letPlay({ url }: Serving, { dataFolder }: Settings): Promise<void> {
  const player = fork(path.join(__dirname, 'player.js'), [url, dataFolder]);
  const [code] = (await once(player, 'exit')) as [number | null];
  if (code !== 0) throw new Error('The demo could not be played.');
}

function isFree(host: string, port: number): Promise<boolean> {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once('error', (error: NodeJS.ErrnoException) => {
      if (error.code === 'EADDRINUSE') resolve(false);
      else reject(error);
    });
    probe.listen(port, host, () => {
      probe.close(() => {
        resolve(true);
      });
    });
  });
}

main().catch(fail);
