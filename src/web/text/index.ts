import { batchesText } from './batches';
import { calendarText } from './calendar';
import { calculatorsText } from './calculators';
import { clubText } from './club';
import { doorText } from './door';
import { frameText } from './frame';
import { holdsText } from './holds';
import { labelsText } from './labels';
import { lotsText } from './lots';
import { planText } from './plan';
import { roomText } from './room';
import { sharingText } from './sharing';
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
  calendar: calendarText,
  holds: holdsText,
  labels: labelsText,
  lots: lotsText,
  plan: planText,
  room: roomText,
  sharing: sharingText,
  settingTimes: settingTimesText,
  stations: stationsText,
  today: todayText,
};
