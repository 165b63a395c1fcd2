import type { EventDraft, JournalEvent, Reading } from '../greenhouse/journalEvent.ts';
import type { Outcome } from '../science/refusal.ts';
import type { ScanQueue } from './scan/scanQueue.ts';

/**
 * What a greenhouse remembers: its journal and its readings. `openStore` gives one.
 * Every method throws a StoreFault when the database cannot answer; everything that was acknowledged before stays.
 */
export interface Store {
  /** Key of the greenhouse, as given to openStore. */
  readonly greenhouse: string;
  readonly journal: Journal;
  readonly readings: Readings;
  /** Clouds that wait to be measured. */
  readonly scans: ScanQueue;
  /** Which database holds it, in words for a person: "PostgreSQL 18.4 in FOLDER/.watermeadow". */
  readonly place: string;
  /** Where this program answers (the desk's URL), so that a second program on the same folder can name it. */
  readonly announceAddress: (address: string) => Promise<void>;
  /** Everything as lines of JSON, for a backup: a first line that says what it is, events, readings, a last line with counts and the last hash. One consistent moment. */
  readonly exportJournal: () => AsyncIterable<string>;
  /**
   * Puts an export back into a store that is still empty: all of it or nothing, ids, times and hashes as they were, every hash recomputed.
   * Refused: a store that holds something (state-conflict), a line that is none of an export (syntax), a chain that is broken or an export that was cut off (inconsistent).
   */
  readonly importJournal: (lines: AsyncIterable<string> | Iterable<string>) => Promise<Outcome<Restored>>;
  /** Finishes what is under way, stops the database it started, releases the folder. Safe to call twice. */
  readonly close: () => Promise<void>;
}

export interface Journal {
  /**
   * Adds all drafts or none, in the order given, and returns once they are on the disk.
   * Drafts whose identity the journal holds already (or that came earlier in the same call) are skipped and named.
   * Refused: `corrects` that names no event of this journal (reference-unknown), an instant that is not UTC ISO 8601 with Z
   * or a text that is missing (value-not-allowed, value-missing), a body that is not plain JSON (value-not-allowed).
   */
  readonly append: <Draft extends EventDraft>(drafts: readonly Draft[]) => Promise<Outcome<Appended<Draft>>>;
  /** Events by ascending sequence. Everything where no wish is given. */
  readonly read: <Event extends JournalEvent = JournalEvent>(wish?: JournalWish) => Promise<readonly Event[]>;
  /** The last event's place and hash; sequence 0 and 64 zeros for an empty journal. */
  readonly head: () => Promise<JournalHead>;
  /** Recomputes every hash. An empty list means that the chain holds. */
  readonly verifyChain: () => Promise<readonly ChainBreak[]>;
}

export interface Appended<Draft extends EventDraft = EventDraft> {
  /** What was added, in order. */
  readonly events: readonly JournalEvent<Draft['kind'], Draft['body']>[];
  readonly skipped: readonly SkippedDraft[];
}

export interface SkippedDraft {
  /** Index of the draft in the call. */
  readonly draft: number;
  readonly identity: string;
  /** The event that already says it. */
  readonly existingId: string;
}

export interface JournalWish {
  readonly afterSequence?: number;
  /** The last sequence wanted, itself included. */
  readonly upToSequence?: number;
  readonly kinds?: readonly string[];
  readonly limit?: number;
}

export interface JournalHead {
  readonly sequence: number;
  readonly hash: string;
}

export interface ChainBreak {
  readonly sequence: number;
  readonly id?: string;
  /** `missing`: no event with this sequence; `link`: does not carry the hash of the one before; `content`: its own hash does not fit what it says. */
  readonly what: 'missing' | 'link' | 'content';
  readonly message: string;
}

export interface Readings {
  /** Adds what is new and returns once it is on the disk. The same place, quantity, instant and instrument again changes nothing: the first value stays. */
  readonly append: (readings: readonly Reading[]) => Promise<Outcome<ReadingsAppended>>;
  /** Oldest first; from inclusive, to exclusive. Instants come back with milliseconds (…:00.000Z), finer ones are cut off. */
  readonly range: (wish: ReadingsWish) => Promise<readonly Reading[]>;
  /** The newest reading of each place and quantity at an instant (itself included); the newest of all where no instant is given. */
  readonly latest: (wish?: LatestWish) => Promise<readonly Reading[]>;
}

export interface ReadingsAppended {
  readonly added: number;
  readonly alreadyKnown: number;
}

export interface ReadingsWish {
  /** All places where none is named. */
  readonly place?: string;
  readonly quantity?: string;
  readonly from: string;
  readonly to: string;
}

export interface LatestWish {
  readonly at?: string;
  readonly place?: string;
}

export interface Restored {
  readonly events: number;
  readonly readings: number;
  readonly headHash: string;
}
