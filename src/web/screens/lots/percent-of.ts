import { figures } from '../../ui/numbers';

/** A share from 0 to 1 as people read it. */
export function percentOf(share: number): string {
  const percent = share * 100;
  return percent > 0 && percent < 0.0001 ? '< 0.0001 %' : `${figures(percent)} %`;
}
