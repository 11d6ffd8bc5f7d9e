import { Prisma } from '../platform/prisma-client/client';
import type { LotKind } from '../platform/prisma-client/enums';

/** A lot with what its label needs beside what it consists of. */
export interface LabelRow {
  code: string;
  kind: LotKind;
  name: string;
  holderName: string;
  initialMassG: number;
  createdAt: Date;
  timeZone: string;
  pottedAt: Date | null;
  /** Of the batch's pots, the largest first. */
  potSizesG: number[];
}

export function labelRow(clubId: string, lotId: string): Prisma.Sql {
  return Prisma.sql`
    select l.code, l.kind::text as kind, l.name, p.name as "holderName", l.initial_mass_g as "initialMassG", l.created_at as "createdAt",
      c.time_zone as "timeZone",
      (select s.at from batch_step s where s.club_id = l.club_id and s.batch_id = l.batch_id and s.kind = 'potted') as "pottedAt",
      case when l.kind = 'creamed' then coalesce((
        select json_agg(b.net_mass_g order by b.net_mass_g desc) from batch_pots b
        where b.club_id = l.club_id and b.batch_id = l.batch_id), '[]') else '[]' end as "potSizesG"
    from lot l
    join club c on c.id = l.club_id
    join member m on m.club_id = l.club_id and m.id = l.holder_id
    join person p on p.id = m.person_id
    where l.club_id = ${clubId}::uuid and l.id = ${lotId}::uuid`;
}
