import { Injectable } from '@nestjs/common';
import { Database } from '../platform/database';
import { Mailer } from './mailer';
import type { MailJob } from './notify';
import { noticeWords, type NoticeDetails } from './words';

interface ToMail {
  kind: string;
  details: NoticeDetails;
  clubName: string;
  timeZone: string;
  name: string;
  email: string;
  isWanted: boolean;
}

/** Mails notices, each once. */
@Injectable()
export class NoticeMail {
  constructor(
    private readonly database: Database,
    private readonly mailer: Mailer,
  ) {}

  /**
   * Mails one notice unless that has been done, or another copy of the service is at it. The row stays locked until the mail server has
   * taken the mail, so no two send it, and a copy that dies meanwhile leaves it to be sent by another. Only when a copy dies between the
   * mail server's word and the commit is it sent again, with the same Message-ID.
   */
  async send({ clubId, noticeId }: MailJob): Promise<void> {
    const client = await this.database.pool.connect();
    let isBroken = true;
    try {
      await client.query('begin');
      const { rows } = await client.query<ToMail>(notDone, [clubId, noticeId]);
      const [notice] = rows;
      if (notice?.isWanted === true) {
        const words = noticeWords(notice.kind, notice.details, notice);
        await this.mailer.send({
          id: noticeId,
          to: { name: notice.name, address: notice.email },
          subject: words.subject,
          text: `${words.text}\n\n${footOf(notice)}`,
        });
        await client.query(done, [clubId, noticeId]);
      } else if (notice !== undefined) {
        await client.query(notWanted, [clubId, noticeId]);
      }
      await client.query('commit');
      isBroken = false;
    } finally {
      // A connection that is thrown away takes its transaction along.
      client.release(isBroken);
    }
  }
}

const notDone = `
  select n.kind, n.details, c.name as "clubName", c.time_zone as "timeZone", p.name, p.email,
    p.mail_notices and m.left_at is null as "isWanted"
  from notice n
  join club c on c.id = n.club_id
  join member m on m.club_id = n.club_id and m.id = n.member_id
  join person p on p.id = m.person_id
  where n.club_id = $1 and n.id = $2 and n.mail_wanted and n.mailed_at is null
  for no key update of n skip locked`;

const done = 'update notice set mailed_at = now() where club_id = $1 and id = $2';

const notWanted = 'update notice set mail_wanted = false where club_id = $1 and id = $2';

function footOf({ clubName }: ToMail): string {
  return `-- \n${clubName}. You get such mails because your account says so (mailNotices); there you can end them.`;
}
