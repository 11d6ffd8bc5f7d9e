import type { Service } from './service';

/**
 * One hash of everything that the database holds, table by table; equal hashes, equal rows. Left out is what a refused request may
 * change: the counts of tries, and when a session or a token was last used.
 */
export async function checksumOf({ database }: Service): Promise<Record<string, string>> {
  const tables = await database.query<{ name: string }>(`
    select table_name as name from information_schema.tables
    where table_schema = 'public' and table_type = 'BASE TABLE' and table_name not in ('rate_limit')
    order by table_name`);
  const parts = tables.map(
    ({ name }) => `
      select '${name}' as name, count(*) || ' ' || md5(coalesce(string_agg(row, ',' order by row), '')) as sum
      from (select (to_jsonb(t) - 'last_used_at')::text as row from "${name}" t) rows`,
  );
  const sums = await database.query<{ name: string; sum: string }>(parts.join(' union all '));
  return Object.fromEntries(sums.map(({ name, sum }) => [name, sum]));
}
