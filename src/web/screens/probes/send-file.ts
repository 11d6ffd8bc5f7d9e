import { Refused, Unreached } from '../../api/client';
import type { components } from '../../api/schema';

type Recorded = components['schemas']['RecordedReadings'];

/** The service takes so many rows at once; a logger's file may hold more. */
const rowsAtOnce = 5000;

export interface Sent {
  stored: number;
  alreadyKnown: number;
}

/** A refusal of a part of the file; what stood before it is on record. */
export class PartRefused extends Error {
  constructor(
    readonly refused: unknown,
    /** In the file, its first line being 1. */
    readonly fromLine: number,
  ) {
    super('A part of the file was refused.');
  }
}

/** Sends a logger's file of readings, part by part; tells after each how many rows are sent. The same file can be sent again: what is on record is only counted. */
export async function sendFile(
  path: string,
  file: string,
  onProgress: (rowsSent: number, rows: number) => void,
): Promise<Sent> {
  const [head = '', ...rows] = file.split(/\r\n|\r|\n/);
  while (rows.at(-1)?.trim() === '') rows.pop();
  const sent: Sent = { stored: 0, alreadyKnown: 0 };
  onProgress(0, rows.length);
  for (let from = 0; from < rows.length; from += rowsAtOnce) {
    const part = rows.slice(from, from + rowsAtOnce);
    try {
      const { stored, alreadyKnown } = await sendPart(path, [head, ...part].join('\n'));
      sent.stored += stored;
      sent.alreadyKnown += alreadyKnown;
    } catch (error) {
      throw from === 0 ? error : new PartRefused(error, from + 2);
    }
    onProgress(from + part.length, rows.length);
  }
  return sent;
}

async function sendPart(path: string, csv: string): Promise<Recorded> {
  const response = await fetch(path, {
    method: 'POST',
    headers: { 'Content-Type': 'text/csv' },
    body: csv,
  }).catch((cause: unknown) => {
    throw new Unreached('The service was not reached.', { cause });
  });
  const body: unknown = await response.json().catch(() => null);
  if (response.ok) return body as Recorded;
  if (body === null) throw new Unreached(`The service answered ${String(response.status)}.`);
  throw new Refused(body as Refused['problem']);
}
