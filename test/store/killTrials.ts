import { setTimeout as sleep } from 'node:timers/promises';
import type { JournalEvent } from '../../src/greenhouse/journalEvent.ts';
import type { Store } from '../../src/store/store.ts';
import { type Said, type Writer, runWriter } from './programs/runWriter.ts';

/** What is killed with -9: the program, the database's first process, all of the database, or everything at once. */
export type Victim = 'program' | 'postmaster' | 'database' | 'everything';

/** One kind of store under trial. */
export interface TrialStore {
  readonly folder: string;
  readonly serverUrl?: string;
  readonly postmaster: () => number | undefined;
  readonly processes: () => number[];
  /** Brings a server back that nobody else brings back. */
  readonly revive: () => Promise<void>;
  readonly open: () => Promise<Store>;
}

/** What trials came to. */
export interface TrialTally {
  trials: number;
  acknowledgedCalls: number;
  acknowledgedReadings: number;
  /** In the journal without having been acknowledged: written, and killed before it was said. */
  unacknowledgedCalls: number;
  readonly lost: string[];
  readonly broken: string[];
  readonly reopenMs: number[];
}

/** Kills at seeded moments while a program writes, opens again and compares with what was acknowledged. */
export async function killTrials(store: TrialStore, trials: number, seed: number): Promise<TrialTally> {
  const random = seededRandom(seed);
  const tally = newTally();
  const acknowledged: Said[] = [];
  for (let lives = 0; tally.trials < trials; lives += 1) {
    // Every second program sees its database killed twice before it is killed itself; the others go down together with it.
    const victims: readonly Victim[] = lives % 2 === 0 ? ['postmaster', 'database', 'program'] : ['everything'];
    const writer = runWriter(store.folder, 'trials', store.serverUrl, `life ${lives}`);
    for (const victim of victims) {
      await strike(store, writer, victim, random);
      tally.trials += 1;
    }
    acknowledged.push(...writer.said);
    await compare(store.open, acknowledged, tally);
  }
  countAcknowledged(acknowledged, tally);
  return tally;
}

export const newTally = (): TrialTally => ({ trials: 0, acknowledgedCalls: 0, acknowledgedReadings: 0, unacknowledgedCalls: 0, lost: [], broken: [], reopenMs: [] });

/** Counts at the end what was said all along. */
export function countAcknowledged(acknowledged: readonly Said[], tally: TrialTally): void {
  tally.acknowledgedCalls = acknowledged.filter(({ call }) => call !== undefined).length;
  tally.acknowledgedReadings = acknowledged.filter(({ place }) => place !== undefined).length;
  tally.unacknowledgedCalls -= tally.acknowledgedCalls;
}

/** Waits until the program writes (again), and kills at a random moment. */
async function strike(store: TrialStore, writer: Writer, victim: Victim, random: () => number): Promise<void> {
  const before = writer.said.length;
  await writer.until((said) => said.call !== undefined && writer.said.indexOf(said) >= before);
  await sleep(random() * 500);
  const database = victim === 'program' ? [] : victim === 'postmaster' ? [store.postmaster()!] : store.processes();
  if (victim === 'program' || victim === 'everything') writer.child.kill('SIGKILL');
  for (const pid of database) kill(pid);
  if (victim === 'program' || victim === 'everything') await writer.ended;
  if (victim !== 'program') await store.revive();
}

/** Opens the store and holds what it remembers against what was acknowledged. */
export async function compare(open: () => Promise<Store>, acknowledged: readonly Said[], tally: TrialTally): Promise<void> {
  const startMs = performance.now();
  const store = await open();
  tally.reopenMs.push(performance.now() - startMs);
  const events = await store.journal.read<JournalEvent<string, { call: string; part: number; size: number }>>();
  const hashes = new Set(events.map(({ hash }) => hash));
  tally.lost.push(...acknowledged.filter(({ hash }) => hash !== undefined && !hashes.has(hash)).map(({ call }) => `event ${call}`));
  tally.broken.push(...brokenCalls(events), ...(await store.journal.verifyChain()).map(({ message }) => message));
  const places = new Set((await store.readings.latest()).map(({ place }) => place));
  tally.lost.push(...acknowledged.filter(({ place }) => place !== undefined && !places.has(place)).map(({ place }) => `reading ${place}`));
  tally.unacknowledgedCalls = new Set(events.map(({ body }) => body.call)).size;
  await store.close();
}

/** Calls of which a part is missing or doubled. */
function brokenCalls(events: readonly JournalEvent<string, { call: string; part: number; size: number }>[]): string[] {
  const calls = new Map<string, { parts: Set<number>; seen: number; size: number }>();
  for (const { body: { call, part, size } } of events) {
    const found = calls.get(call) ?? { parts: new Set(), seen: 0, size };
    found.parts.add(part);
    found.seen += 1;
    calls.set(call, found);
  }
  return [...calls].filter(([, { parts, seen, size }]) => parts.size !== size || seen !== size).map(([call, { seen, size }]) => `call ${call} has ${seen} of ${size} events`);
}

function kill(pid: number): void {
  try {
    process.kill(pid, 'SIGKILL');
  } catch {
    // A child may have ended together with its parent.
  }
}

/** Numbers from 0 to 1, the same for the same seed: Park and Miller (1988), minimal standard generator. */
export function seededRandom(seed: number): () => number {
  let state = seed;
  return () => (state = (state * 48_271) % 2_147_483_647) / 2_147_483_647;
}

export const describeTally = (what: string, { trials, acknowledgedCalls, acknowledgedReadings, unacknowledgedCalls, lost, broken, reopenMs }: TrialTally): string =>
  `${what}: ${trials} trials, ${acknowledgedCalls} calls and ${acknowledgedReadings} readings acknowledged, ${lost.length} lost, ${unacknowledgedCalls} written but not acknowledged, `
  + `${broken.length} broken, reopened in ${Math.round(reopenMs.toSorted((a, b) => a - b)[Math.floor(reopenMs.length / 2)]!)} ms (median), ${Math.round(Math.max(...reopenMs))} ms (longest)`;
