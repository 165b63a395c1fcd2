import { useQueryClient, type QueryClient } from '@tanstack/react-query';
import { useEffect, useState } from 'react';
import type { LiveKind, LiveMessages, PlanAnswer } from '../../desk/contract.ts';

/** Keeps every page fresh while it is open; tells whether the desk is still heard. */
export function useLive(): { readonly connected: boolean } {
  const cache = useQueryClient();
  const [connected, setConnected] = useState(true);
  useEffect(() => {
    const feed = new EventSource('/api/live');
    const on = <K extends LiveKind>(kind: K, act: (message: LiveMessages[K]) => void) =>
      feed.addEventListener(kind, (event) => act(JSON.parse(event.data) as LiveMessages[K]));
    let lost = false;
    feed.addEventListener('open', () => { setConnected(true); if (lost) void cache.invalidateQueries(); lost = false; });
    feed.addEventListener('error', () => { lost = true; setConnected(false); });
    on('progress', (progress) => showProgress(cache, progress));
    for (const kind of ['plan', 'approved', 'stop', 'start-over'] as const) on(kind, () => void cache.invalidateQueries({ predicate: (query) => query.queryKey[0] !== 'people' }));
    return () => feed.close();
  }, [cache]);
  return { connected };
}

/** Writes the progress of planning straight into the plan that is shown, without asking again. */
function showProgress(cache: QueryClient, progress: LiveMessages['progress']): void {
  cache.setQueryData<PlanAnswer>(['plan'], (known) => known && { ...known, status: { phase: 'planning', startedAt: known.nowAt, ...progress } });
}
