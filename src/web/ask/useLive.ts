import { useQueryClient, type QueryClient } from '@tanstack/react-query';
import { useEffect, useState } from 'react';
import type { ImagingAnswer, LiveKind, LiveMessages, PlanAnswer } from '../../desk/contract.ts';

/** Keeps every page fresh while it is open; tells whether the desk is still heard. */
export function useLive(): { readonly connected: boolean } {
  const cache = useQueryClient();
  const [connected, setConnected] = useState(true);
  useEffect(() => {
    const feed = new EventSource('/api/live');
    const on = <K extends LiveKind>(kind: K, act: (message: LiveMessages[K]) => void) =>
      feed.addEventListener(kind, (event) => act(JSON.parse(event.data) as LiveMessages[K]));
    let lost = false;
    feed.addEventListener('open', () => { setConnected(true); if (lost) void cache.invalidateQueries({ predicate: mayChange }); lost = false; });
    feed.addEventListener('error', () => { lost = true; setConnected(false); });
    on('progress', (progress) => showProgress(cache, progress));
    for (const kind of ['plan', 'approved', 'stop', 'start-over'] as const) on(kind, () => void cache.invalidateQueries({ predicate: mayChange }));
    on('imaging', (job) => showJob(cache, job));
    on('scored', ({ basin }) => void cache.invalidateQueries({ predicate: ({ queryKey: [kind, id] }) => (kind === 'imaging' && (id === undefined || id === basin)) || kind === 'journal' }));
    return () => feed.close();
  }, [cache]);
  return { connected };
}

/** Who works here, and what a cloud looked like, stay as they are whatever happens. */
const mayChange = ({ queryKey }: { readonly queryKey: readonly unknown[] }): boolean => queryKey[0] !== 'people' && queryKey[0] !== 'picture';

/** Writes how far a cloud is into the queue that is shown; what it became is asked for once it is over. */
function showJob(cache: QueryClient, job: LiveMessages['imaging']): void {
  cache.setQueryData<ImagingAnswer>(['imaging'], (known) => known && { ...known, queue: [...known.queue.filter(({ scan }) => scan !== job.scan), job] });
  if (job.state === 'done' || job.state === 'refused') void cache.invalidateQueries({ predicate: ({ queryKey: [kind] }) => kind === 'imaging' || kind === 'journal' || kind === 'basin' });
}

/** Writes the progress of planning straight into the plan that is shown, without asking again. */
function showProgress(cache: QueryClient, progress: LiveMessages['progress']): void {
  cache.setQueryData<PlanAnswer>(['plan'], (known) => known && { ...known, status: { phase: 'planning', startedAt: known.nowAt, ...progress } });
}
