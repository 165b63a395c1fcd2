// How fast the embedded store is here: npx tsx test/campaigns/storeSpeed.ts
import { loadavg } from 'node:os';
import { testStore } from '../store/testStore.ts';

const report = (what: string, figure: number, unit: string): void => console.log(`${what.padEnd(58)} ${figure >= 100 ? Math.round(figure) : figure.toFixed(1)} ${unit}`);
async function time<T>(what: string, work: () => Promise<T>, perSecond?: number): Promise<T> {
  const startMs = performance.now();
  const result = await work();
  const ms = performance.now() - startMs;
  if (perSecond === undefined) report(what, ms, 'ms');
  else report(what, perSecond / (ms / 1000), 'a second');
  return result;
}
const draft = (n: number) => ({ kind: 'speed-noted', happenedAt: '2026-11-25T06:30:00Z', recordedBy: 'bench', body: { n, text: 'x'.repeat(200) } });
const readings = Array.from({ length: 100_000 }, (_, n) => ({
  at: new Date(1.7e12 + Math.floor(n / 1000) * 600_000).toISOString(), place: `basin:B${n % 250}`, quantity: ['pH', 'ecMsPerCm25', 'waterC', 'levelMm'][Math.floor(n / 250) % 4]!, value: Math.sin(n),
}));

console.log(`load of the machine before: ${loadavg()[0]!.toFixed(1)}`);
const test = await time('create a store', () => testStore());
const reopened: number[] = [];
for (let times = 0; times < 5; times += 1) {
  await test.store().close();
  const startMs = performance.now();
  await test.reopen();
  reopened.push(performance.now() - startMs);
}
report('open an existing store (median of 5)', reopened.toSorted((a, b) => a - b)[2]!, 'ms');
const { journal, readings: kept } = test.store();
await time('events one after the other, each on the disk', async () => { for (let n = 0; n < 1_000; n += 1) await journal.append([draft(n)]); }, 1_000);
await time('events of 50 callers at once, each call on the disk', () => Promise.all(Array.from({ length: 50 }, async () => { for (let n = 0; n < 100; n += 1) await journal.append([draft(n)]); })), 5_000);
await time('events in one call of 20,000', () => journal.append(Array.from({ length: 20_000 }, (_, n) => draft(n))), 20_000);
await time('read 26,000 events', () => journal.read());
await time('verify the chain of 26,000 events', () => journal.verifyChain());
await time('add 100,000 readings', () => kept.append(readings));
await time('add the same 100,000 again', () => kept.append(readings));
await time('newest of 1,000 series', () => kept.latest());
await time('one place, one day (400 readings)', () => kept.range({ place: 'basin:B7', from: '2023-11-14T00:00:00Z', to: '2023-11-16T00:00:00Z' }));
await time('export 26,000 events and 100,000 readings', async () => { for await (const line of test.store().exportJournal()) if (line === '') throw new Error('an empty line'); });
await test.remove();
