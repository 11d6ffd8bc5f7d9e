import { batchesText } from './batches';
import { calendarText } from './calendar';
import { calculatorsText } from './calculators';
import { clubText } from './club';
import { doorText } from './door';
import { frameText } from './frame';
import { holdsText } from './holds';
import { lineageText } from './lineage';
import { loansText } from './loans';
import { labelsText } from './labels';
import { lotsText } from './lots';
import { planText } from './plan';
import { probesText } from './probes';
import { roomText } from './room';
import { seedText } from './seed';
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
  lineage: lineageText,
  loans: loansText,
  labels: labelsText,
  lots: lotsText,
  plan: planText,
  probes: probesText,
  room: roomText,
  seed: seedText,
  sharing: sharingText,
  settingTimes: settingTimesText,
  stations: stationsText,
  today: todayText,
};
