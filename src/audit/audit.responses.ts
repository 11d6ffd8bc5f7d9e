import { ApiProperty } from '@nestjs/swagger';
import { Id, Instant, Text } from '../platform/fields';

export class AuditEntryResponse {
  @Id()
  id!: string;

  @Instant()
  at!: string;

  @Text({ max: 100, is: 'The name of who did it.' })
  who!: string;

  @Id()
  personId!: string;

  @Id({ nullable: true, is: 'The token that was used; null: a browser.' })
  tokenId!: string | null;

  @Text({ max: 64, is: 'The x-request-id, under which the log knows it.' })
  requestId!: string;

  @Text({ max: 100, example: 'booking.made' })
  action!: string;

  @Id({ is: 'What it was done to.' })
  subjectId!: string;

  @ApiProperty({ type: 'object', additionalProperties: true, description: 'As the action has it.' })
  details!: Record<string, unknown>;
}

export interface AuditEntryRow {
  id: string;
  at: Date;
  who: string;
  personId: string;
  tokenId: string | null;
  requestId: string;
  action: string;
  subjectId: string;
  details: Record<string, unknown>;
}

export function toAuditEntryResponse(row: AuditEntryRow): AuditEntryResponse {
  return {
    id: row.id,
    at: row.at.toISOString(),
    who: row.who,
    personId: row.personId,
    tokenId: row.tokenId,
    requestId: row.requestId,
    action: row.action,
    subjectId: row.subjectId,
    details: row.details,
  };
}
