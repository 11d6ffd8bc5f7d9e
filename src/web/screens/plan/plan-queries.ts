import type { components } from '../../api/schema';

export type Plan = components['schemas']['PlanResponse'];
export type PlanRequest = components['schemas']['PlanRequest'];
export type Alternative = components['schemas']['PlanAlternative'];
