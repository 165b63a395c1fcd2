const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;

/**
 * Closes a store when this process is told to end. Where the program listens to the signal itself it is left to it, with one
 * safety net: at the very end the database is told to stop. Returns how to take all this back.
 */
export function closeOnSignal(close: () => Promise<void>, atExit: () => void): () => void {
  const onSignal = (name: NodeJS.Signals): void => {
    if (process.listeners(name).some((listener) => !ours.has(listener))) return;
    void close().finally(() => {
      // With our listeners gone the signal does what it does by default.
      if (process.listenerCount(name) === 0) process.kill(process.pid, name);
    });
  };
  ours.add(onSignal);
  for (const name of SIGNALS) process.on(name, onSignal);
  process.once('exit', atExit);
  return () => {
    for (const name of SIGNALS) process.off(name, onSignal);
    process.off('exit', atExit);
    ours.delete(onSignal);
  };
}

const ours = new Set<unknown>();
