import { useEffect, useState } from 'react';

const TICK_MS = 10_000;

/** The desk's clock between its answers: goes on from the instant that it gave, ten seconds at a time. */
export function useNow(answeredAt: string): string {
  const [since, setSince] = useState({ answeredAt, aheadMs: 0 });
  useEffect(() => {
    const begun = performance.now();
    const tick = setInterval(() => setSince({ answeredAt, aheadMs: performance.now() - begun }), TICK_MS);
    return () => clearInterval(tick);
  }, [answeredAt]);
  return new Date(Date.parse(answeredAt) + (since.answeredAt === answeredAt ? since.aheadMs : 0)).toISOString();
}
