// The service, as it runs in production, in a process of its own.
import { createRequire } from 'node:module';

const require = createRequire(import.meta.url);
const { dress } = require('../../dist/src/app.js');
const { readSettings } = require('../../dist/src/platform/settings.js');

const settings = readSettings({ LOG_LEVEL: 'warn' });
const app = await dress(process.env.DATABASE_URL, settings);
await app.listen(0, '127.0.0.1');
process.send({ url: await app.getUrl() });
process.on('SIGINT', () => process.exit(0));
process.on('message', () => {
  process.send({ rssMb: Math.round(process.memoryUsage().rss / 1_048_576) });
});
