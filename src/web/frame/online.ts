import { useSyncExternalStore } from 'react';

function listen(listener: () => void): () => void {
  window.addEventListener('online', listener);
  window.addEventListener('offline', listener);
  return () => {
    window.removeEventListener('online', listener);
    window.removeEventListener('offline', listener);
  };
}

/** Whether the browser believes that there is a network. */
export function useIsOnline(): boolean {
  return useSyncExternalStore(listen, () => navigator.onLine);
}
