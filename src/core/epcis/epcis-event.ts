/** An event of EPCIS 2.0, with as much of it as the club's records fill. `room:` marks what the standard has no word for. */
export type EpcisEvent = {
  readonly type: 'ObjectEvent' | 'TransformationEvent';
  readonly eventID: string;
  readonly eventTime: string;
  readonly eventTimeZoneOffset: string;
  readonly recordTime: string;
  readonly action?: 'ADD' | 'OBSERVE' | 'DELETE';
  readonly bizStep: string;
  readonly disposition: string;
  readonly bizLocation: { readonly id: string };
  readonly quantityList?: readonly EpcisQuantity[];
  readonly inputQuantityList?: readonly EpcisQuantity[];
  readonly outputQuantityList?: readonly EpcisQuantity[];
  readonly bizTransactionList?: readonly {
    readonly type?: string;
    readonly bizTransaction: string;
  }[];
  readonly sourceList?: readonly { readonly type: 'possessing_party'; readonly source: string }[];
  readonly destinationList?: readonly {
    readonly type: 'possessing_party';
    readonly destination: string;
  }[];
  readonly sensorElementList?: readonly object[];
  readonly ilmd?: Readonly<Record<string, unknown>>;
  /** What went in and did not come out. */
  readonly 'room:lossKg'?: number;
  /** Of what the temperatures tell. */
  readonly 'room:stretch'?: 'warming' | 'setting';
  readonly 'room:pots'?: readonly { readonly netMassKg: number; readonly count: number }[];
};

/** A part of a lot: KGM is the kilogram (UN/CEFACT Recommendation 20). */
export type EpcisQuantity = {
  readonly epcClass: string;
  readonly quantity: number;
  readonly uom: 'KGM';
};

/** The URN of a record: its UUID (RFC 9562, 4). */
export function urnOf(id: string): string {
  return `urn:uuid:${id}`;
}

/** So much of a lot: grams in, told in kilograms. */
export function quantityOf(lotId: string, massG: number): EpcisQuantity {
  return { epcClass: urnOf(lotId), quantity: massG / 1000, uom: 'KGM' };
}
