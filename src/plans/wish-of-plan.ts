import type { PlanRow } from './plan-rows';
import type { PlanRequest } from './plans.requests';

/** What somebody asked, out of the JSON in which a plan keeps it. */
export function wishOfPlan(request: PlanRow['request']): PlanRequest {
  const { earliestStart, comesAt, ...rest } = request;
  return {
    ...rest,
    ...(earliestStart !== undefined && { earliestStart: new Date(earliestStart) }),
    ...(comesAt !== undefined && {
      comesAt: comesAt.map(({ startsAt, endsAt }) => ({
        startsAt: new Date(startsAt),
        endsAt: new Date(endsAt),
      })),
    }),
  };
}
