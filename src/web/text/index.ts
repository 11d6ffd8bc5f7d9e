import { calculatorsText } from './calculators';
import { clubText } from './club';
import { doorText } from './door';
import { frameText } from './frame';

/** Every word of the page, one file to a screen: what a translation replaces. */
export const text = {
  frame: frameText,
  door: doorText,
  club: clubText,
  calculators: calculatorsText,
};
