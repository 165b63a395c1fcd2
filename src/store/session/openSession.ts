import { decide, type Command } from '../../greenhouse/decide.ts';
import { foldEvents } from '../../greenhouse/evolve.ts';
import type { GreenhouseEvent } from '../../greenhouse/events.ts';
import type { GreenhouseFolder } from '../../greenhouse/files/greenhouseFolder.ts';
import { readGreenhouseFolder } from '../../greenhouse/files/readGreenhouseFolder.ts';
import { importFolder } from '../../greenhouse/importFolder.ts';
import type { Reading } from '../../greenhouse/journalEvent.ts';
import type { GreenhouseState } from '../../greenhouse/state.ts';
import { accepted, refused, type Outcome, type Refusal } from '../../science/refusal.ts';
import { openStore, type StoreLog } from '../openStore.ts';
import type { ChainBreak, JournalHead, Store } from '../store.ts';
import { readFolder } from './readFolder.ts';

export interface SessionSettings {
  readonly folder: string;
  /** A PostgreSQL server instead of the embedded one. */
  readonly serverUrl?: string;
  /** The name by which a second program on the same folder hears of this one. */
  readonly program: string;
  readonly log?: StoreLog;
  /** UTC instant, ISO 8601 with Z: for facts of the files that carry no time of their own. */
  readonly nowAt: string;
}

/** A greenhouse folder that is open: files read, what is new in them in the journal, the state at hand. */
export interface GreenhouseSession {
  readonly store: Store;
  readonly warnings: readonly Refusal[];
  readonly imported: { readonly events: number; readonly readings: number };
  readonly state: () => GreenhouseState;
  /** The state as it was after an earlier entry of the journal. */
  readonly stateUpTo: (sequence: number) => GreenhouseState;
  /** Readings of all places in the five weeks before an instant: what planning needs. */
  readonly readingsBefore: (at: string) => Promise<readonly Reading[]>;
  /** Carries a command out: decided on the state at this moment, one after the other, and acknowledged once it is on the disk. */
  readonly act: (command: Command, nowAt: string) => Promise<Outcome<readonly GreenhouseEvent[]>>;
  /** The newest entries before a sequence (of all where absent), newest last. */
  readonly events: (before: number | undefined, count: number) => readonly GreenhouseEvent[];
  /** All entries of the journal, oldest first. */
  readonly allEvents: () => readonly GreenhouseEvent[];
  readonly checkChain: () => Promise<{ readonly head: JournalHead; readonly breaks: readonly ChainBreak[] }>;
  readonly close: () => Promise<void>;
}

const PLANNING_DAYS = 35;

/**
 * Opens a greenhouse folder: reads its files, opens its store, adds what is new to the journal. A folder that is refused
 * changes nothing and opens nothing.
 */
export async function openSession(settings: SessionSettings): Promise<Outcome<GreenhouseSession>> {
  const texts = readFolder(settings.folder);
  if (!texts.ok) return texts;
  const folder = readGreenhouseFolder(texts.value);
  if (!folder.ok) return folder;
  const store = await openStore({ folder: settings.folder, greenhouse: folder.value.file.id, program: settings.program, ...(settings.serverUrl === undefined ? {} : { serverUrl: settings.serverUrl }), ...(settings.log === undefined ? {} : { log: settings.log }) });
  if (!store.ok) return store;
  try {
    const events = await bringIn(store.value, folder.value, settings.nowAt);
    if (events.ok) return accepted(session(store.value, events.value, folder.warnings), folder.warnings);
    await store.value.close();
    return events;
  } catch (error) {
    await store.value.close();
    throw error;
  }
}

interface BroughtIn { readonly events: GreenhouseEvent[]; readonly newEvents: number; readonly newReadings: number }

async function bringIn(store: Store, folder: GreenhouseFolder, nowAt: string): Promise<Outcome<BroughtIn>> {
  const known = await store.journal.read<GreenhouseEvent>();
  const appended = await store.journal.append(importFolder(folder, known, nowAt));
  if (!appended.ok) return appended;
  const readings = await store.readings.append(folder.readings.map((row): Reading => ({ ...row, at: new Date(row.at).toISOString() })));
  if (!readings.ok) return readings;
  const added = appended.value.events as unknown as readonly GreenhouseEvent[];
  return accepted({ events: [...known, ...added], newEvents: added.length, newReadings: readings.value.added });
}

function session(store: Store, brought: BroughtIn, warnings: readonly Refusal[]): GreenhouseSession {
  const { events } = brought;
  let state = foldEvents(events);
  let turn: Promise<unknown> = Promise.resolve();
  const actNow = async (command: Command, nowAt: string): Promise<Outcome<readonly GreenhouseEvent[]>> => {
    const drafts = decide(state, command, nowAt);
    if (!drafts.ok) return drafts;
    const appended = await store.journal.append(drafts.value);
    if (!appended.ok) return appended;
    const added = appended.value.events as unknown as readonly GreenhouseEvent[];
    if (added.length === 0) return refused([{ code: 'state-conflict', severity: 'error', path: command.do, message: 'The journal holds this already.' }]);
    events.push(...added);
    state = foldEvents(events);
    return accepted(added);
  };
  return {
    store, warnings, imported: { events: brought.newEvents, readings: brought.newReadings },
    state: () => state,
    stateUpTo: (sequence) => foldEvents(events.filter((event) => event.sequence <= sequence)),
    readingsBefore: (at) => store.readings.range({ from: new Date(Date.parse(at) - PLANNING_DAYS * 86_400_000).toISOString(), to: new Date(Date.parse(at) + 1).toISOString() }),
    act: (command, nowAt) => { const done = turn.then(() => actNow(command, nowAt)); turn = done.catch(() => undefined); return done; },
    events: (before, count) => events.filter((event) => before === undefined || event.sequence < before).slice(-count),
    allEvents: () => events,
    checkChain: async () => ({ head: await store.journal.head(), breaks: await store.journal.verifyChain() }),
    close: store.close,
  };
}
