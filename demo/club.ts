import type { Duty, SourceName, StationRef } from './records';

// An invented club in an invented village. Its people, its room and its records exist nowhere else.

export const club = {
  name: 'The Creaming Room of Upper Brummelwick (an invented club)',
  timeZone: 'Europe/Vienna',
};

/** Every account of the demo has this password: for a demo on one's own machine only. */
export const demoPassword = 'seven otters mend a kettle';

export interface DemoMember {
  /** By which records name them. */
  ref: string;
  name: string;
  role: 'steward' | 'member';
}

export const founder: DemoMember = { ref: 'odalys', name: 'Odalys Fennwhistle', role: 'steward' };

export const members: DemoMember[] = [
  founder,
  { ref: 'bartek', name: 'Bartek Lindenhauch', role: 'steward' },
  { ref: 'nkechi', name: 'Nkechi Dappleby', role: 'member' },
  { ref: 'jorin', name: 'Jorin Haselbrumm', role: 'member' },
  { ref: 'mirella', name: 'Mirella Quenchley', role: 'member' },
  { ref: 'tavi', name: 'Tavi Skogglim', role: 'member' },
  { ref: 'anouk', name: 'Anouk Pfefferwind', role: 'member' },
  { ref: 'desmond', name: 'Desmond Thistlewake', role: 'member' },
  { ref: 'ilka', name: 'Ilka Wabenrund', role: 'member' },
  { ref: 'ravindra', name: 'Ravindra Meadowsip', role: 'member' },
];

export function emailOf({ ref }: DemoMember): string {
  return `${ref}@example.org`;
}

export function memberOf(ref: string): DemoMember {
  const member = members.find((one) => one.ref === ref);
  if (member === undefined) throw new Error(`The demo has no member ${ref}.`);
  return member;
}

export interface DemoSource {
  name: SourceName;
  grain: 'fine' | 'medium' | 'coarse';
  sets: boolean;
  note: string;
  /** Out of a hundred batches. */
  batchesInHundred: number;
  /** Day of the year on which it is extracted, MM-DD. */
  extracted: string;
}

const invented = 'Of the invented demo.';

export const sources: DemoSource[] = [
  source('oilseed rape', 'fine', 20, '05-28', 'Sets in the comb if one waits.'),
  source('fruit blossom', 'fine', 11, '05-20', ''),
  source('dandelion', 'coarse', 8, '05-24', ''),
  source('white clover', 'fine', 13, '07-02', ''),
  source('lime', 'medium', 16, '07-18', ''),
  source('phacelia', 'fine', 9, '07-10', ''),
  source('sunflower', 'coarse', 11, '08-14', ''),
  source('sweet chestnut', 'medium', 6, '07-12', 'Slow.'),
  source('heather', 'medium', 4, '09-12', 'A jelly; stir it before seeding.'),
  { ...source('robinia', 'fine', 2, '06-12', 'Stays liquid; some try all the same.'), sets: false },
];

function source(
  name: SourceName,
  grain: DemoSource['grain'],
  batchesInHundred: number,
  extracted: string,
  words: string,
): DemoSource {
  const note = words === '' ? invented : `${words} ${invented}`;
  return { name, grain, sets: true, note, batchesInHundred, extracted };
}

export interface DemoStation {
  ref: StationRef;
  name: string;
  placeLoadKg: number;
  changeoverMinutes: number;
  duties: { duty: Duty; minC: number; maxC: number }[];
  places: number;
}

export const stations: Record<StationRef, DemoStation> = {
  cabinet: {
    ref: 'cabinet',
    name: 'Warming cabinet (cools in summer)',
    placeLoadKg: 30,
    changeoverMinutes: 240,
    duties: [
      { duty: 'warm', minC: 30, maxC: 50 },
      { duty: 'cool', minC: 8, maxC: 18 },
    ],
    places: 9,
  },
  coolRoom: {
    ref: 'coolRoom',
    name: 'Cool room',
    placeLoadKg: 20,
    changeoverMinutes: 0,
    duties: [{ duty: 'cool', minC: 6, maxC: 20 }],
    places: 60,
  },
  bench: {
    ref: 'bench',
    name: 'Bench with the mixer',
    placeLoadKg: 90,
    changeoverMinutes: 0,
    duties: [{ duty: 'bench', minC: 15, maxC: 30 }],
    places: 1,
  },
};

/** Where bought seed comes from. */
export const seedSeller = 'Bought at the autumn fair of Upper Brummelwick (invented)';
