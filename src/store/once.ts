/** The same work, done at the first call only; later calls wait for it. */
export function once(work: () => Promise<void>): () => Promise<void> {
  let done: Promise<void> | undefined;
  return () => (done ??= work());
}
