import { readSettings } from './platform/settings';
import { fail, serve, stopWhenAsked } from './serve';

async function main(): Promise<void> {
  const serving = await serve(readSettings(process.env));
  console.log(`The Creaming Room serves at ${serving.url} (its API: /api/docs).`);
  stopWhenAsked(serving);
}

main().catch(fail);
