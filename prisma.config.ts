import { defineConfig } from 'prisma/config';

// eslint-disable-next-line no-restricted-syntax -- the Prisma CLI reads the default export
export default defineConfig({
  schema: 'prisma/schema.prisma',
  migrations: { path: 'prisma/migrations' },
});
