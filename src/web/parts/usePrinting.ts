import { useSyncExternalStore } from 'react';
import { flushSync } from 'react-dom';

let printing = false;
const listeners = new Set<() => void>();
const set = (is: boolean): void => {
  printing = is;
  flushSync(() => listeners.forEach((tell) => tell()));
};
window.addEventListener('beforeprint', () => set(true));
window.addEventListener('afterprint', () => set(false));

/** True while the page is being printed. */
export const usePrinting = (): boolean => useSyncExternalStore(listen, () => printing);

function listen(tell: () => void): () => void {
  listeners.add(tell);
  return () => listeners.delete(tell);
}
