import type { Pool } from 'pg';
import type { Reading } from '../../greenhouse/journalEvent.ts';
import { accepted, refused, type Refusal } from '../../science/refusal.ts';
import { checkInstant } from '../journal/checkDraft.ts';
import { PATIENCE_MS } from '../journal/openJournal.ts';
import { inTransaction } from '../sql/inTransaction.ts';
import { untilAnswered } from '../sql/untilAnswered.ts';
import type { Readings } from '../store.ts';
import { checkReading } from './checkReading.ts';
import { insertReadings, readLatest, readRange } from './readingTable.ts';
import { rememberSeries } from './seriesNumbers.ts';

/** The readings of one greenhouse. Calls to append run one after the other; doing one twice adds nothing, so it is repeated after a lost connection. */
export function openReadings(greenhouse: number, pool: Pool): Readings {
  const series = rememberSeries(greenhouse);
  let turn: Promise<unknown> = Promise.resolve();
  const write = (readings: readonly Reading[]): Promise<number> => untilAnswered(async () => {
    const numbers = await series.numbersOf(pool, readings);
    return inTransaction(pool, (client) => insertReadings(client, greenhouse, readings, numbers));
  }, PATIENCE_MS);
  return {
    append: async (readings) => {
      const refusals = readings.flatMap(checkReading);
      if (refusals.length > 0) return refused(refusals);
      const added = turn.then(() => write(readings));
      turn = added.catch(() => undefined);
      return accepted({ added: await added, alreadyKnown: readings.length - await added });
    },
    range: async (wish) => {
      refuseWrongInstants([...checkInstant(wish.from, 'from'), ...checkInstant(wish.to, 'to')]);
      return untilAnswered(() => readRange(pool, greenhouse, wish), PATIENCE_MS);
    },
    latest: async (wish = {}) => {
      refuseWrongInstants(wish.at === undefined ? [] : checkInstant(wish.at, 'at'));
      return untilAnswered(() => readLatest(pool, greenhouse, wish), PATIENCE_MS);
    },
  };
}

/** A question with an instant that is none is a bug of the one who asks. */
function refuseWrongInstants([first]: readonly Refusal[]): void {
  if (first !== undefined) throw new RangeError(`${first.path}: ${first.message}`);
}
