// A program that writes events and readings without end and says on standard output what was acknowledged. Killed by the trials.
import { writeSync } from 'node:fs';
import { openStore } from '../../../src/store/openStore.ts';
import { StoreFault } from '../../../src/store/storeFault.ts';

const [folder = '', greenhouse = '', serverUrl = '', run = ''] = process.argv.slice(2);
const say = (line: object): number => writeSync(1, `${JSON.stringify(line)}\n`);

const opened = await openStore({ folder, greenhouse, program: 'a writer', ...(serverUrl === '' ? {} : { serverUrl }), log: (message) => say({ log: message }) });
if (!opened.ok) {
  say({ refusals: opened.refusals });
  process.exit(1);
}
const { journal, readings } = opened.value;
say({ open: process.pid });
const write = async (writer: number): Promise<never> => {
  for (let n = 0; ; n += 1) {
    const call = `${run} ${writer} ${n}`;
    const size = 1 + (n * writer) % 4;
    const outcome = await journal.append(Array.from({ length: size }, (_, part) => ({
      kind: 'trial-noted', happenedAt: '2026-11-25T06:30:00Z', recordedBy: 'trial', body: { call, part, size, filling: 'x'.repeat((n * 37) % 900) },
      ...(n % 3 === 0 ? { identity: `${call} ${part}` } : {}),
    })));
    if (!outcome.ok) throw new Error(JSON.stringify(outcome.refusals));
    say({ call, hash: outcome.value.events.at(-1)!.hash });
    const at = new Date(n).toISOString();
    await readings.append([{ at, place: call, quantity: 'levelMm', value: n }]);
    say({ place: call });
  }
};
await Promise.all([1, 2, 3].map(write)).catch((error: unknown) => {
  // Told to end: the store was closed under the writers.
  if (!(error instanceof StoreFault && error.fault === 'store-closed')) throw error;
});
