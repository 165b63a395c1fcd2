import type { Client } from 'pg';
import type { EventDraft } from '../../../src/greenhouse/journalEvent.ts';
import type { Outcome } from '../../../src/science/refusal.ts';
import type { StoreSettings } from '../../../src/store/openStore.ts';
import type { Store } from '../../../src/store/store.ts';

/** One kind of store, ready for the contract: every greenhouse opened on it lies in the same database. */
export interface StoreBench {
  readonly settings: (greenhouse: string) => StoreSettings;
  /** Works on the database behind the store's back, with every right. */
  readonly behind: <T>(work: (client: Client) => Promise<T>) => Promise<T>;
  readonly remove: () => Promise<void>;
}

let made = 0;
/** A name that no test has used. */
export const newGreenhouse = (): string => `greenhouse ${made += 1}`;

export const draft = (n: number, more: Partial<EventDraft> = {}): EventDraft => ({
  kind: 'test-noted', happenedAt: '2026-11-25T06:30:00Z', recordedBy: 'ana', body: { n }, ...more,
});

/** The value of an outcome that must not be refused. */
export function valueOf<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(`refused: ${JSON.stringify(outcome.refusals)}`);
  return outcome.value;
}

export const codesOf = (outcome: Outcome<unknown>): string[] => (outcome.ok ? [] : outcome.refusals.map(({ code, path }) => `${code} ${path}`));

export const collectLines = async (store: Store): Promise<string[]> => {
  const lines: string[] = [];
  for await (const line of store.exportJournal()) lines.push(line);
  return lines;
};

/** Breaks every connection of the stores, as a restart of the server would. */
export const cutConnections = (bench: StoreBench): Promise<unknown> =>
  bench.behind((client) => client.query(`select pg_terminate_backend(pid) from pg_stat_activity where application_name = 'watermeadow'`));
