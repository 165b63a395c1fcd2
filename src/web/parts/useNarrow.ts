import { useSyncExternalStore } from 'react';

const narrow = window.matchMedia('(max-width: 640px)');

/** True on a phone held upright. */
export const useNarrow = (): boolean => useSyncExternalStore(listen, () => narrow.matches);

function listen(tell: () => void): () => void {
  narrow.addEventListener('change', tell);
  return () => narrow.removeEventListener('change', tell);
}
