import type { ClientBase } from 'pg';
import type { Reading } from '../../greenhouse/journalEvent.ts';
import type { Outcome, Refusal } from '../../science/refusal.ts';
import { accepted, refused } from '../../science/refusal.ts';
import { insertRowsWithin, readHead } from '../journal/eventTable.ts';
import type { EventRow } from '../journal/hashEvent.ts';
import { type ChainWalk, walkChain } from '../journal/verifyChain.ts';
import { insertReadings } from '../readings/readingTable.ts';
import { rememberSeries } from '../readings/seriesNumbers.ts';
import { bracket } from '../sql/inTransaction.ts';
import type { Restored } from '../store.ts';
import type { BackupEnd } from './backupLine.ts';
import { type ReadLine, readBackupLine } from './readBackupLine.ts';

const ROWS_A_STATEMENT = 2_000;

/** Carries refusals out of the transaction, which is thereby undone. */
class Refused extends Error {
  readonly refusals: readonly Refusal[];
  constructor(refusals: readonly Refusal[]) {
    super('refused');
    this.refusals = refusals;
  }
}

/** Puts the lines of an export into an empty store: all of them or none, the chain checked on the way. */
export async function importJournal(client: ClientBase, greenhouse: number, lines: AsyncIterable<string> | Iterable<string>): Promise<Outcome<Restored>> {
  try {
    return accepted(await bracket(client, () => importWithin(client, greenhouse, lines)));
  } catch (error) {
    if (error instanceof Refused) return refused(error.refusals);
    throw error;
  }
}

async function importWithin(client: ClientBase, greenhouse: number, lines: AsyncIterable<string> | Iterable<string>): Promise<Restored> {
  if (!await isEmpty(client, greenhouse)) throw new Refused([refuse('state-conflict', 'store', 'The store holds events or readings already; restore into a new folder.')]);
  const walk = walkChain();
  // Remembered for this transaction only: it may be undone.
  const series = rememberSeries(greenhouse);
  const rows: EventRow[] = [];
  const readings: Reading[] = [];
  let counted = 0;
  let end: BackupEnd | undefined;
  const flush = async (): Promise<void> => {
    if (rows.length > 0) await insertRowsWithin(client, greenhouse, rows.splice(0));
    const some = readings.splice(0);
    counted += await insertReadings(client, greenhouse, some, await series.numbersOf(client, some));
  };
  for await (const [number, line] of numberedLines(lines)) {
    if (end !== undefined) throw new Refused([refuse('syntax', `line ${number}`, 'Something follows the last line of the export.')]);
    if (line.is === 'event') rows.push(checkLink(line.row, number, walk));
    else if (line.is === 'reading') readings.push(line.reading);
    else if (line.is === 'end') end = line.end;
    if (rows.length + readings.length >= ROWS_A_STATEMENT) await flush();
  }
  await flush();
  return checkEnd({ events: walk.head().sequence, readings: counted, headHash: walk.head().hash }, end);
}

async function* numberedLines(lines: AsyncIterable<string> | Iterable<string>): AsyncGenerator<[number, ReadLine]> {
  let number = 0;
  for await (const text of lines) {
    if (text.trim() === '') continue;
    number += 1;
    const line = readBackupLine(text, number);
    if (!line.ok) throw new Refused(line.refusals);
    if ((number === 1) !== (line.value.is === 'first')) throw new Refused([refuse('syntax', `line ${number}`, 'An export starts with one line that says what it is.')]);
    yield [number, line.value];
  }
}

function checkLink(row: EventRow, number: number, walk: ChainWalk): EventRow {
  const breaks = walk.breaksOf(row);
  if (breaks.length > 0) throw new Refused(breaks.map(({ message }) => refuse('inconsistent', `line ${number}`, `The chain of the export is broken: ${message}.`)));
  return row;
}

function checkEnd(restored: Restored, end: BackupEnd | undefined): Restored {
  if (end === undefined) throw new Refused([refuse('inconsistent', 'end', 'The export was cut off: its last line is missing.')]);
  if (end.events === restored.events && end.readings === restored.readings && end.headHash === restored.headHash) return restored;
  throw new Refused([{ ...refuse('inconsistent', 'end', `The export should hold ${end.events} events and ${end.readings} readings; it holds ${restored.events} and ${restored.readings}.`), value: restored, limit: end }]);
}

async function isEmpty(client: ClientBase, greenhouse: number): Promise<boolean> {
  const { sequence } = await readHead(client, greenhouse);
  const { rows } = await client.query('select 1 from watermeadow.reading where greenhouse = $1 limit 1', [greenhouse]);
  return sequence === 0 && rows.length === 0;
}

const refuse = (code: Refusal['code'], path: string, message: string): Refusal => ({ code, path, message, severity: 'error' });
