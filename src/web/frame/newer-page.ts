import { useEffect, useState } from 'react';
import { registerSW } from 'virtual:pwa-register';

let update: ((reload?: boolean) => Promise<void>) | undefined;

/** Keeps the page for use without a network, and tells when a newer one waits. */
export function useNewerPage(): { isThere: boolean; load: () => void } {
  const [isThere, setThere] = useState(false);
  useEffect(() => {
    update ??= registerSW({ onNeedRefresh: () => setThere(true) });
  }, []);
  return { isThere, load: () => void update?.(true) };
}
