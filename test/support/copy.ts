import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import path from 'node:path';

/** A copy of the compiled service in a process of its own, as it is started by hand. */
export interface Copy {
  url: string;
  process: ChildProcess;
  /** Asks it to stop, and waits until it has. Answers its exit code. */
  stop(): Promise<number | null>;
  /** Waits until it has died by itself. */
  died(): Promise<void>;
}

const program = path.resolve(__dirname, '../../dist/src/main.js');

export async function startCopy(
  databaseUrl: string,
  environment: Record<string, string> = {},
): Promise<Copy> {
  const child = spawn(process.execPath, [program], {
    env: {
      PATH: process.env['PATH'],
      DATABASE_URL: databaseUrl,
      PORT: '0',
      LOG_LEVEL: 'silent',
      ...environment,
    },
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const exit = once(child, 'exit') as Promise<[number | null]>;
  return {
    url: await addressOf(child),
    process: child,
    async stop() {
      child.kill('SIGINT');
      const [code] = await exit;
      return code;
    },
    async died() {
      await exit;
    },
  };
}

function addressOf(child: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    let output = '';
    child.stdout?.on('data', (chunk: Buffer) => {
      output += chunk.toString();
      const address = /http:\/\/127\.0\.0\.1:\d+/.exec(output)?.[0];
      if (address !== undefined) resolve(address);
    });
    child.once('exit', (code) => reject(new Error(`It ended with ${String(code)}: ${output}`)));
  });
}
