const text = (maxLength: number) => ({ type: 'string', maxLength });

/** As much of EPCIS 2.0 as the OpenAPI document tells; the whole is GS1's own JSON Schema. */
export const epcisSchema = {
  type: 'object',
  description: 'A document of EPCIS 2.0 (ISO/IEC 19987) in JSON-LD.',
  additionalProperties: false,
  required: ['@context', 'id', 'type', 'schemaVersion', 'creationDate', 'epcisBody'],
  properties: {
    '@context': { type: 'array', maxItems: 2, items: {} },
    id: { ...text(60), format: 'uri' },
    type: { type: 'string', enum: ['EPCISDocument'] },
    schemaVersion: { type: 'string', enum: ['2.0'] },
    creationDate: { ...text(35), format: 'date-time' },
    epcisBody: {
      type: 'object',
      additionalProperties: false,
      required: ['eventList'],
      properties: {
        eventList: {
          type: 'array',
          maxItems: 1_000_000,
          items: { type: 'object' },
        },
      },
    },
  },
};
