import { useSyncExternalStore } from 'react';

const KEPT_AS = 'watermeadow.person';
const listeners = new Set<() => void>();

/** Who uses this device, kept on the device only. */
export function useWho(): readonly [person: string | undefined, choose: (id: string) => void] {
  const person = useSyncExternalStore(listen, () => localStorage.getItem(KEPT_AS) ?? '');
  return [person === '' ? undefined : person, choosePerson];
}

function choosePerson(id: string): void {
  localStorage.setItem(KEPT_AS, id);
  listeners.forEach((tell) => tell());
}

function listen(tell: () => void): () => void {
  listeners.add(tell);
  return () => listeners.delete(tell);
}
