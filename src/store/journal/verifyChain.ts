import type { ChainBreak, JournalHead } from '../store.ts';
import type { EventRow } from './hashEvent.ts';
import { FIRST_PREVIOUS_HASH, hashEvent } from './hashEvent.ts';

/** A walk along the chain: give it the rows in order and it says what is broken. */
export interface ChainWalk {
  readonly breaksOf: (row: EventRow) => readonly ChainBreak[];
  /** The last row seen. */
  readonly head: () => JournalHead;
}

export function walkChain(): ChainWalk {
  let head: JournalHead = { sequence: 0, hash: FIRST_PREVIOUS_HASH };
  return {
    head: () => head,
    breaksOf: (row) => {
      const breaks = [...missingBreaks(head, row), ...linkBreaks(head, row), ...contentBreaks(row)];
      head = row;
      return breaks;
    },
  };
}

function missingBreaks(head: JournalHead, row: EventRow): ChainBreak[] {
  if (row.sequence === head.sequence + 1) return [];
  const gap = row.sequence > head.sequence + 1;
  return [{ sequence: head.sequence + 1, what: 'missing', message: gap
    ? `event ${head.sequence + 1} is missing: after ${head.sequence} comes ${row.sequence}`
    : `event ${row.sequence} comes after event ${head.sequence}` }];
}

const linkBreaks = (head: JournalHead, row: EventRow): ChainBreak[] => (row.previousHash === head.hash ? [] : [{
  sequence: row.sequence, id: row.id, what: 'link', message: `event ${row.sequence} does not carry the hash of the event before it` }]);

const contentBreaks = (row: EventRow): ChainBreak[] => (hashEvent(row) === row.hash ? [] : [{
  sequence: row.sequence, id: row.id, what: 'content', message: `event ${row.sequence} was changed: its hash does not fit what it says` }]);
