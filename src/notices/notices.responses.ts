import { Id, Instant, Text, Whole } from '../platform/fields';
import { noticeWords, type NoticeDetails } from './words';

export class NoticeResponse {
  @Id()
  id!: string;

  @Text({ max: 100, example: 'booking.cancelled' })
  kind!: string;

  @Id({ is: 'What it is about: a booking, a loan, a batch, a member.' })
  subjectId!: string;

  @Text({ max: 1000 })
  subject!: string;

  @Text({ min: 0, max: 10_000, is: 'Times in it are by the club’s clock.' })
  text!: string;

  @Instant()
  createdAt!: string;

  @Instant({ nullable: true, is: 'null: you have not read it.' })
  readAt!: string | null;

  @Instant({ nullable: true, is: 'When it went out by e-mail; null: it has not.' })
  mailedAt!: string | null;
}

export class NoticesRead {
  @Whole({ min: 0, max: 2_147_483_647, is: 'How many were unread before.' })
  markedCount!: number;
}

export interface NoticeRow {
  id: string;
  kind: string;
  subjectId: string;
  details: NoticeDetails;
  createdAt: Date;
  readAt: Date | null;
  mailedAt: Date | null;
  clubName: string;
  timeZone: string;
}

export function toNoticeResponse(row: NoticeRow): NoticeResponse {
  const { subject, text } = noticeWords(row.kind, row.details, row);
  return {
    id: row.id,
    kind: row.kind,
    subjectId: row.subjectId,
    subject,
    text,
    createdAt: row.createdAt.toISOString(),
    readAt: row.readAt?.toISOString() ?? null,
    mailedAt: row.mailedAt?.toISOString() ?? null,
  };
}
