import { execFile } from 'node:child_process';
import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { promisify } from 'node:util';
import { projectFolder } from '../../src/platform/project-folder';
import { useService } from '../support/service';

const service = useService();

interface Operation {
  operationId: string;
  summary: string;
  tags: string[];
  security: object[];
  responses: Record<string, { content?: object; headers: Record<string, object> }>;
}

function operations(): Operation[] {
  return Object.values(service.document.paths).flatMap((item) =>
    Object.values(item as Record<string, Operation>),
  );
}

test('the document that is served is the one in the project: npm run api:write writes it anew', async () => {
  const written = await readFile(path.join(projectFolder, 'openapi.json'), 'utf8');
  expect(service.document).toEqual(JSON.parse(written));
});

test('the document keeps the rules of those who read many of them', async () => {
  const lint = promisify(execFile)(process.execPath, [
    path.join(projectFolder, 'api-lint', 'lint.mjs'),
  ]);
  const outcome = await lint.then(
    () => 'no findings',
    (error: unknown) => (error as { stdout: string }).stdout,
  );
  expect(outcome).toBe('no findings');
}, 120_000);

test('every operation has a name of its own, and stands with a feature that is told of', () => {
  const names = operations().map(({ operationId }) => operationId);
  expect(new Set(names).size).toBe(names.length);
  const features = new Set(service.document.tags?.map(({ name }) => name));
  for (const { operationId, tags, summary } of operations()) {
    expect([operationId, tags.length, features.has(tags[0] ?? '')]).toEqual([operationId, 1, true]);
    expect(summary.length).toBeGreaterThan(3);
  }
  const used = new Set(operations().flatMap(({ tags }) => tags));
  expect([...features].filter((feature) => !used.has(feature))).toEqual([]);
});

test('every refusal that is told of is a problem, and every answer has an id', () => {
  for (const { operationId, responses } of operations()) {
    for (const [status, { content, headers }] of Object.entries(responses)) {
      expect([operationId, status, 'X-Request-Id' in headers]).toEqual([operationId, status, true]);
      if (Number(status) < 400) continue;
      expect(content).toEqual({
        'application/problem+json': { schema: { $ref: '#/components/schemas/Problem' } },
      });
      if (['429', '503'].includes(status)) expect(headers).toHaveProperty('Retry-After');
      if (status === '401') expect(headers).toHaveProperty('WWW-Authenticate');
    }
  }
});

test('what may be null says so as JSON Schema does', () => {
  const text = JSON.stringify(service.document);
  expect(text).not.toContain('"nullable"');
  expect(text).toMatch(/"type":\["string","null"\]/);
});

interface Schema {
  type?: string | string[];
  enum?: unknown[];
  format?: string;
  maxLength?: number;
  maxItems?: number;
  minimum?: number;
  maximum?: number;
  properties?: Record<string, Schema>;
  additionalProperties?: boolean | Schema;
}

/** Where a schema sets no limit to what it describes. */
function unbounded(node: unknown, place: string): string[] {
  if (typeof node !== 'object' || node === null) return [];
  const schema = node as Schema;
  const within = Object.entries(node).flatMap(([member, of]) =>
    unbounded(of, `${place}/${member}`),
  );
  // An example, or a field that is called type, is no schema.
  const types = [schema.type].flat().filter((type) => typeof type === 'string');
  const isFound = types.some((type) => {
    switch (type) {
      case 'string':
        return schema.maxLength === undefined && schema.enum === undefined;
      case 'integer':
      case 'number':
        return schema.minimum === undefined || schema.maximum === undefined;
      case 'array':
        return schema.maxItems === undefined;
      case 'object':
        return schema.properties !== undefined && schema.additionalProperties === undefined;
      default:
        return false;
    }
  });
  return isFound ? [place, ...within] : within;
}

test('everything has a limit: texts, lists and numbers, and what an object holds', () => {
  const { components, paths } = service.document;
  expect([...unbounded(components?.schemas, '#'), ...unbounded(paths, '#')]).toEqual([]);
});

test('what is sent in holds no more than what is told', () => {
  const schemas = service.document.components!.schemas as Record<string, Schema>;
  const open = Object.entries(schemas)
    .filter(
      ([, { type, additionalProperties }]) => type === 'object' && additionalProperties !== false,
    )
    .map(([name]) => name);
  // A problem may carry offers.
  expect(open).toEqual(['Problem']);
});
