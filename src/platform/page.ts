import { existsSync, readdirSync } from 'node:fs';
import path from 'node:path';
import fastifyStatic from '@fastify/static';
import type { FastifyInstance, FastifyReply } from 'fastify';
import { projectFolder } from './project-folder';

/** Addresses of the page's screens: each, and what lies below it, is the same page. */
const screens = [
  'account',
  'batches',
  'calculators',
  'club',
  'join',
  'lots',
  'probes',
  'room',
  'seed',
  'setting-times',
];

const yearS = 31_536_000;

/** Serves the page where it was built, at the addresses of its screens. To be called before routes are noted: these are none of the API's. */
export async function servePage(fastify: FastifyInstance): Promise<void> {
  const root = path.join(projectFolder, 'dist/web');
  if (!existsSync(path.join(root, 'index.html'))) return;
  await fastify.register(fastifyStatic, {
    root,
    serve: false,
    cacheControl: false,
    preCompressed: true,
  });

  // A name of a file under assets changes with its content; the others' does not.
  for (const file of filesIn(root)) {
    const isNamedByContent = file.startsWith('assets/');
    const cache = isNamedByContent ? `public, max-age=${yearS}, immutable` : 'no-cache';
    fastify.get(`/${file}`, (_request, reply) => send(reply, file, cache));
  }
  const page = (_request: unknown, reply: FastifyReply) => send(reply, 'index.html', 'no-cache');
  fastify.get('/', page);
  for (const screen of screens) {
    fastify.get(`/${screen}`, page);
    fastify.get(`/${screen}/*`, page);
  }
}

function send(reply: FastifyReply, file: string, cache: string): FastifyReply {
  return reply.header('cache-control', cache).sendFile(file);
}

function filesIn(root: string): string[] {
  return readdirSync(root, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && !/\.(br|gz)$/.test(entry.name))
    .map((entry) => path.relative(root, path.join(entry.parentPath, entry.name)))
    .map((file) => file.split(path.sep).join('/'));
}
