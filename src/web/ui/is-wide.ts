import { useMediaQuery } from '@mantine/hooks';

/** Whether there is room for a table, or for two weeks side by side. */
export function useIsWide(): boolean {
  return useMediaQuery('(min-width: 60rem)', false, { getInitialValueInEffect: false });
}
