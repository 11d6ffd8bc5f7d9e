import { batchesText } from './batches';
import { calculatorsText } from './calculators';
import { clubText } from './club';
import { doorText } from './door';
import { frameText } from './frame';
import { holdsText } from './holds';
import { lotsText } from './lots';
import { planText } from './plan';
import { roomText } from './room';
import { settingTimesText } from './setting-times';
import { stationsText } from './stations';
import { todayText } from './today';

/** Every word of the page, one file to a screen: what a translation replaces. */
export const text = {
  frame: frameText,
  door: doorText,
  batches: batchesText,
  club: clubText,
  calculators: calculatorsText,
  holds: holdsText,
  lots: lotsText,
  plan: planText,
  room: roomText,
  settingTimes: settingTimesText,
  stations: stationsText,
  today: todayText,
};
