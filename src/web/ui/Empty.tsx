import { Text } from '@mantine/core';
import type { ReactNode } from 'react';

/** There is nothing yet; says so, and what to do about it. */
export function Empty({ children, action }: { children: ReactNode; action?: ReactNode }) {
  return (
    <div className="sheet">
      <Text className="soft" mb={action === undefined ? 0 : 'sm'}>
        {children}
      </Text>
      {action}
    </div>
  );
}
