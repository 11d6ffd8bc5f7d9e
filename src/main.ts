import { readSettings } from './platform/settings';
import { fail, serve, stopWhenAsked } from './serve';

async function main(): Promise<void> {
  const serving = await serve(readSettings(process.env));
  stopWhenAsked(serving);
  console.log(`The Creaming Room serves at ${serving.url} (its API: /api/docs).`);
}

main().catch(fail);
