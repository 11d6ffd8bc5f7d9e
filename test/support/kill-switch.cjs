// Loaded before the service (node --require): kills the process at one moment of the first request that carries an Idempotency-Key.
const http = require('node:http');
const pg = require('pg');

const moment = process.env.KILL_AT;
const die = () => process.kill(process.pid, 'SIGKILL');

const plainQuery = pg.Client.prototype.query;
pg.Client.prototype.query = function query(...args) {
  const text = typeof args[0] === 'string' ? args[0] : (args[0]?.text ?? '');
  if (moment === 'before the transaction' && text === 'BEGIN') die();
  if (text.includes('insert into idempotency_key')) this.isWatched = true;
  const isCommit = this.isWatched && text === 'COMMIT';
  if (isCommit && moment === 'inside the transaction') die();
  const answer = plainQuery.apply(this, args);
  if (isCommit && moment === 'after the commit') return answer.then(die);
  return answer;
};

if (moment === 'after the answer') {
  const plainEnd = http.ServerResponse.prototype.end;
  http.ServerResponse.prototype.end = function end(...args) {
    if (this.req.headers['idempotency-key'] !== undefined)
      this.once('finish', () => setImmediate(die));
    return plainEnd.apply(this, args);
  };
}
