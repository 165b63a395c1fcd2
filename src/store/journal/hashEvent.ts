import { createHash } from 'node:crypto';
import type { JournalEvent } from '../../greenhouse/journalEvent.ts';

/** The hash that the first event carries as the one before it. */
export const FIRST_PREVIOUS_HASH = '0'.repeat(64);

/** An event with its body as the text that is stored and hashed. */
export interface EventRow extends Omit<JournalEvent, 'body'> {
  /** Canonical JSON of the body. */
  readonly bodyText: string;
}

/**
 * SHA-256 (FIPS 180-4), in hex, of the event's canonical JSON (RFC 8785) without its own hash and with the hash of the event before.
 * The keys stand here in their sorted order; absent identity and corrects are left out.
 */
export function hashEvent(row: Omit<EventRow, 'hash'>): string {
  const parts = [
    `"body":${row.bodyText}`,
    ...optional('corrects', row.corrects),
    `"happenedAt":${JSON.stringify(row.happenedAt)}`,
    `"id":${JSON.stringify(row.id)}`,
    ...optional('identity', row.identity),
    `"kind":${JSON.stringify(row.kind)}`,
    `"previousHash":${JSON.stringify(row.previousHash)}`,
    `"recordedAt":${JSON.stringify(row.recordedAt)}`,
    `"recordedBy":${JSON.stringify(row.recordedBy)}`,
    `"sequence":${row.sequence}`,
  ];
  return createHash('sha256').update(`{${parts.join(',')}}`).digest('hex');
}

const optional = (key: string, text: string | undefined): string[] => (text === undefined ? [] : [`"${key}":${JSON.stringify(text)}`]);
