/** The envelope of every entry of the journal (DESIGN: append-only, chained by hash, corrections name what they correct). */

export interface EventDraft<Kind extends string = string, Body = unknown> {
  readonly kind: Kind;
  /** When it happened in the greenhouse: UTC instant, ISO 8601 with Z. */
  readonly happenedAt: string;
  /** Who or what recorded it: a person's id, "import", "desk". */
  readonly recordedBy: string;
  readonly body: Body;
  /** Two drafts with the same identity are the same fact: the second one is not added. */
  readonly identity?: string;
  /** Id of the event that this one corrects. */
  readonly corrects?: string;
}

export interface JournalEvent<Kind extends string = string, Body = unknown> extends EventDraft<Kind, Body> {
  readonly id: string;
  /** Place in the journal of this greenhouse, from 1, without gaps. */
  readonly sequence: number;
  /** When it was recorded: UTC instant, ISO 8601 with Z. */
  readonly recordedAt: string;
  /** SHA-256 (hex) of the event before; 64 zeros for the first. */
  readonly previousHash: string;
  /** SHA-256 (hex) of this event's canonical form with previousHash. */
  readonly hash: string;
}

/** One instrument value. Kept in its own time-ordered table, not in the hash chain. */
export interface Reading {
  /** UTC instant, ISO 8601 with Z. */
  readonly at: string;
  /** "basin:B017", "tank:R1", "bay:glass-1", "outdoor". */
  readonly place: string;
  /** For example "ecMsPerCm25", "pH", "levelMm", "waterC", "airC", "rhPct", "co2Ppm", "ppfdUmolM2S". */
  readonly quantity: string;
  readonly value: number;
  /** One standard deviation, in the unit of the value, where the instrument states it. */
  readonly sd?: number;
  readonly instrument?: string;
}
