import { createHash } from 'node:crypto';

/**
 * Answers by what they were computed from: the same batches and the same question have the same answer, in every copy of the service and
 * for ever, so nothing goes stale. Those not asked for the longest are forgotten first.
 */
export class AnswerCache<Answer> {
  private readonly answers = new Map<string, { answer: Answer; size: number }>();
  private size = 0;

  /** `capacity` in the unit of the sizes given. */
  constructor(private readonly capacity: number) {}

  get(key: string): Answer | undefined {
    const kept = this.answers.get(key);
    if (kept === undefined) return undefined;
    // A map keeps the order in which keys were put in.
    this.answers.delete(key);
    this.answers.set(key, kept);
    return kept.answer;
  }

  keep(key: string, answer: Answer, size: number): void {
    this.forget(key);
    if (size > this.capacity) return;
    this.answers.set(key, { answer, size });
    this.size += size;
    for (const oldest of this.answers.keys()) {
      if (this.size <= this.capacity) break;
      this.forget(oldest);
    }
  }

  private forget(key: string): void {
    this.size -= this.answers.get(key)?.size ?? 0;
    this.answers.delete(key);
  }
}

/** The key of whatever was computed from these texts. */
export function contentKey(...texts: string[]): string {
  const hash = createHash('sha256');
  for (const text of texts) hash.update(`${text.length}:`).update(text);
  return hash.digest('base64url');
}
