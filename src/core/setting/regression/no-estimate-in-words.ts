import type { NoEstimate } from './no-estimate';
import type { SetAsideLevel } from './set-aside';

/** One sentence that tells a member why a regression has no estimate, and what would help. */
export function noEstimateInWords({ reason, terms }: NoEstimate): string {
  const named = terms.join(', ');
  switch (reason) {
    case 'nothing observed':
      return 'No batch has been looked at yet.';
    case 'none seen set':
      return 'None of these batches has been seen set yet, so nobody knows how long they take.';
    case 'all set before the first look':
      return 'All of these batches had set before anybody looked; look earlier at the next ones.';
    case 'columns explain each other':
      return `What is known of the batches does not tell these apart: ${named}. Leave one out.`;
    case 'no spread':
      return 'These batches are too few or too alike to tell how far setting times spread.';
    case 'later looks found no more set':
      return 'Of the batches looked at later no more had set than of those looked at sooner.';
    case 'covariates part set from unset':
      return `Batches seen set and others differ entirely in: ${named}. No effect can be estimated.`;
  }
}

/** One sentence that tells a member why a level has no figure of its own. */
export function setAsideInWords({ covariate, level, n, why }: SetAsideLevel): string {
  const batches = n === 1 ? 'the one batch' : `any of the ${n} batches`;
  switch (why) {
    case 'no batches':
      return `${covariate} ${level}: no batch yet.`;
    case 'none seen set':
      return `${covariate} ${level}: ${n === 1 ? 'the one batch has not' : `none of the ${n} batches has`} been seen set yet; only that they are slower than some pace can be known.`;
    case 'all set before the first look':
      return `${covariate} ${level}: nobody looked before ${batches} had set; only that they are faster than some pace can be known.`;
  }
}
