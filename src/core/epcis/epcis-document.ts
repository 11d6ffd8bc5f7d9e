import type { EpcisEvent } from './epcis-event';

export type EpcisDocument = {
  readonly '@context': readonly (string | Readonly<Record<string, string>>)[];
  readonly id: string;
  readonly type: 'EPCISDocument';
  readonly schemaVersion: '2.0';
  /** The latest time at which something in it was recorded: the same history is the same document. */
  readonly creationDate: string;
  readonly epcisBody: { readonly eventList: readonly EpcisEvent[] };
};

/**
 * Events (one or more) as a document of EPCIS 2.0 in JSON-LD. `id` names the document; what the standard has no word for stands under
 * `vocabulary`, an address that ends with / or #.
 *
 * Source: GS1, EPCIS Standard 2.0 (ISO/IEC 19987) and Core Business Vocabulary 2.0 (ISO/IEC 19988), 2022.
 */
export function epcisDocument(
  events: readonly EpcisEvent[],
  id: string,
  vocabulary: string,
): EpcisDocument {
  const recorded = events.map(({ recordTime }) => recordTime).sort();
  const last = recorded.at(-1);
  if (last === undefined) throw new RangeError('events must hold at least one event');
  return {
    '@context': [
      'https://ref.gs1.org/standards/epcis/2.0.0/epcis-context.jsonld',
      { room: vocabulary },
    ],
    id,
    type: 'EPCISDocument',
    schemaVersion: '2.0',
    creationDate: last,
    epcisBody: { eventList: events },
  };
}
