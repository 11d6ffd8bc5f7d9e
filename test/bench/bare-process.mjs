// The baseline for reads: node:http and pg, nothing else. Answers each address with the rows of the recorded statements.
import { createServer } from 'node:http';
import pg from 'pg';

const pool = new pg.Pool({
  connectionString: process.env.DATABASE_URL,
  max: 10,
  options: '-c TimeZone=UTC',
});
const reads = new Map(
  JSON.parse(process.env.STATEMENTS).map(({ path, statements }) => [path, statements]),
);

const server = createServer(async (request, response) => {
  const statements = reads.get(request.url);
  if (statements === undefined) return response.writeHead(404).end();
  let rows;
  for (const statement of statements) ({ rows } = await pool.query(statement));
  response
    .writeHead(200, { 'content-type': 'application/json; charset=utf-8' })
    .end(JSON.stringify({ items: rows }));
});
server.listen(0, '127.0.0.1', () =>
  process.send({ url: `http://127.0.0.1:${server.address().port}` }),
);
process.on('message', () => process.send({ rssMb: 0 }));
