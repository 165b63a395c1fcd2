import { useEffect, useState } from 'react';

const TICK_MS = 10_000;

/** The desk's clock between its answers: goes on from the instant that it gave, ten seconds at a time. */
export function useNow(answeredAt: string): string {
  const [aheadMs, setAhead] = useState(0);
  useEffect(() => {
    const begun = performance.now();
    setAhead(0);
    const tick = setInterval(() => setAhead(performance.now() - begun), TICK_MS);
    return () => clearInterval(tick);
  }, [answeredAt]);
  return new Date(Date.parse(answeredAt) + aheadMs).toISOString();
}
