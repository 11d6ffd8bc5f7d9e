import type { ComponentType } from 'react';
import { useParams } from 'wouter';
import { useClub } from '../../api/club';
import { text } from '../../text';
import { Screen } from '../../ui/Screen';
import { Ways } from '../../ui/Ways';
import { ProbesPart } from '../probes/ProbesPart';
import { AuditPart } from './AuditPart';
import { CalendarPart } from './CalendarPart';
import { FloralSourcesPart } from './FloralSourcesPart';
import { HoursPart } from './HoursPart';
import { LabelsPart } from './LabelsPart';
import { MembersPart } from './MembersPart';
import { NewsPart } from './NewsPart';
import { SharingPart } from './SharingPart';
import { StationsPart } from './StationsPart';
import { TokensPart } from './TokensPart';

type Part = keyof typeof text.club.parts;

const parts: Record<Part, ComponentType> = {
  members: MembersPart,
  hours: HoursPart,
  sharing: SharingPart,
  stations: StationsPart,
  'floral-sources': FloralSourcesPart,
  probes: ProbesPart,
  labels: LabelsPart,
  calendar: CalendarPart,
  news: NewsPart,
  tokens: TokensPart,
  audit: AuditPart,
};

/** The club itself: who is in it, what stands in its room, what its bees work, and the ways in for scripts. */
export function ClubScreen() {
  const { clubName, role } = useClub();
  const { part } = useParams<{ part?: string }>();
  const chosen = part !== undefined && part in parts ? (part as Part) : 'members';
  const Chosen = parts[chosen];
  const open = (Object.entries(text.club.parts) as [Part, string][]).filter(
    ([one]) => one !== 'audit' || role === 'steward',
  );
  return (
    <Screen title={text.frame.club}>
      <Ways
        label={clubName}
        to={open.map(([one, words]) => ({
          href: `/club/${one}`,
          words,
          isHere: one === chosen,
        }))}
      />
      <div className="club-part">
        <Chosen />
      </div>
    </Screen>
  );
}
