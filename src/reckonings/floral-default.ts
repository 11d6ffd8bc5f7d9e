import { FLORAL_DEFAULTS, type FloralDefault } from '../core/honey/floral-defaults';

/** Names under which clubs know plants that the table lists under another. */
const ALSO_CALLED: Readonly<Record<string, string>> = {
  'oilseed rape': 'rape',
  'sweet chestnut': 'chestnut',
  linden: 'lime',
  acacia: 'false acacia',
  'black locust': 'false acacia',
};

/** The table's mean of all honeys is of no plant. */
const OF_NO_PLANT = 'any honey';

/**
 * The published composition that goes by the club's name for a floral source: the plant's common or botanical name, in whatever
 * case; undefined when there is none.
 */
export function floralDefaultOf(name: string): FloralDefault | undefined {
  const wanted = name.trim().toLowerCase();
  const sought = Object.hasOwn(ALSO_CALLED, wanted) ? ALSO_CALLED[wanted] : wanted;
  return FLORAL_DEFAULTS.find(
    ({ plant }) => plant !== OF_NO_PLANT && namesOf(plant.toLowerCase()).includes(sought ?? ''),
  );
}

/** “rape (brassica napus)” goes by three names. */
function namesOf(plant: string): string[] {
  const [common = '', botanical] = plant.replace(')', '').split(' (');
  return botanical === undefined ? [plant] : [plant, common, botanical];
}
