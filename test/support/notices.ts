import type { Service } from './service';

/** The kinds of what members were told, and of what, in the order in which they were. */
export async function toldTo(
  service: Service,
  memberId: string,
): Promise<{ kind: string; subjectId: string; details: Record<string, unknown> }[]> {
  const notices = await service.prisma.notice.findMany({
    where: { memberId },
    orderBy: { id: 'asc' },
  });
  return notices.map(({ kind, subjectId, details }) => ({
    kind,
    subjectId,
    details: details as Record<string, unknown>,
  }));
}
