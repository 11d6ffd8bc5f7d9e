import { useEffect, useState } from 'react';
import { registerSW } from 'virtual:pwa-register';

/** It keeps everything at once, which on a slow network must not stand in the way of what is looked at first. */
const keepAfterMs = 4000;

let update: ((reload?: boolean) => Promise<void>) | undefined;

/** Keeps the page for use without a network, and tells when a newer one waits. */
export function useNewerPage(): { isThere: boolean; load: () => void } {
  const [isThere, setThere] = useState(false);
  useEffect(() => {
    const timer = setTimeout(() => {
      update ??= registerSW({ onNeedRefresh: () => setThere(true) });
    }, keepAfterMs);
    return () => clearTimeout(timer);
  }, []);
  return { isThere, load: () => void update?.(true) };
}
