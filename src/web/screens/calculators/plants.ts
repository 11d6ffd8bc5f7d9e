import type { components } from '../../api/schema';

type Plant = NonNullable<components['schemas']['SettingRequest']['plant']>;

/** The plants whose means the service knows. The type says if one is lacking or wrong. */
const known: Record<Plant, true> = {
  'any honey': true,
  'rape (Brassica napus)': true,
  'dandelion (Taraxacum)': true,
  'sunflower (Helianthus)': true,
  eucalyptus: true,
  'ling heather (Calluna)': true,
  'lime (Tilia)': true,
  citrus: true,
  'lavender (Lavandula)': true,
  'thyme (Thymus)': true,
  rhododendron: true,
  'chestnut (Castanea)': true,
  'false acacia (Robinia)': true,
  honeydew: true,
  'honeydew (Metcalfa)': true,
};

export const plants = Object.keys(known) as [Plant, ...Plant[]];
