/** How many batches became how. */
export interface TextureCounts {
  readonly smooth: number;
  readonly grainy: number;
  readonly gritty: number;
}

export interface TextureScore {
  /** On so many batches it rests. */
  readonly batches: number;
  /** The mean of the batches' scores, 0 to 1; null: no batch was looked at. */
  readonly score: number | null;
  /** The same, drawn towards the club's mean the more, the fewer batches there are; null: the club has looked at none. */
  readonly pooledScore: number | null;
}

const SCORES: TextureCounts = { smooth: 1, grainy: 0.5, gritty: 0 };

/** As if so many batches that became as the club's do on average had been looked at, too. Our own choice. */
const POOLED_WITH_BATCHES = 2;

/**
 * How smooth do the batches of a seed become? A smooth batch scores 1, a grainy one 0.5, a gritty one 0, and the score is their mean:
 * 1 is all smooth, 0 all gritty. Few batches tell little, so the pooled score counts two more batches of the club's mean:
 * (sum of scores + 2 · club's mean) / (batches + 2). Counts are whole and not negative; `club` counts all batches of the club, these included.
 * Example: one gritty batch in a club whose mean is 0.9: score 0, pooled 0.6. Source of the scale: our own choice.
 */
export function textureScore(own: TextureCounts, club: TextureCounts): TextureScore {
  const batches = countOf(own);
  const clubMean = meanOf(club);
  return {
    batches,
    score: meanOf(own),
    pooledScore:
      clubMean === null
        ? null
        : (sumOf(own) + POOLED_WITH_BATCHES * clubMean) / (batches + POOLED_WITH_BATCHES),
  };
}

function countOf({ smooth, grainy, gritty }: TextureCounts): number {
  return smooth + grainy + gritty;
}

function sumOf({ smooth, grainy, gritty }: TextureCounts): number {
  return SCORES.smooth * smooth + SCORES.grainy * grainy + SCORES.gritty * gritty;
}

function meanOf(counts: TextureCounts): number | null {
  return countOf(counts) === 0 ? null : sumOf(counts) / countOf(counts);
}
