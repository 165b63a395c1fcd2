import type { Reading } from '../../greenhouse/journalEvent.ts';
import type { Asked } from '../journal/eventTable.ts';

/** What a reading is one of: a place, a quantity, an instrument ('' where none is named). */
type Series = Pick<Reading, 'place' | 'quantity' | 'instrument'>;

/** Gives each series its number in the database, and remembers it. */
export interface SeriesNumbers {
  /** `asked` must not be in a transaction that may be undone: the numbers are remembered whatever becomes of it. */
  readonly numbersOf: (asked: Asked, readings: readonly Series[]) => Promise<number[]>;
}

export function rememberSeries(greenhouse: number): SeriesNumbers {
  const known = new Map<string, number>();
  return {
    numbersOf: async (asked, readings) => {
      const keys = readings.map(keyOf);
      const unknown = new Map(keys.flatMap((key, index) => (known.has(key) ? [] : [[key, readings[index]!] as const])));
      if (unknown.size > 0) for (const [key, number] of await numberSeries(asked, greenhouse, [...unknown.values()])) known.set(key, number);
      return keys.map((key) => known.get(key)!);
    },
  };
}

const keyOf = ({ place, quantity, instrument }: Series): string => `${place}\n${quantity}\n${instrument ?? ''}`;

async function numberSeries(asked: Asked, greenhouse: number, series: readonly Series[]): Promise<[string, number][]> {
  const values = [greenhouse, series.map(({ place }) => place), series.map(({ quantity }) => quantity), series.map(({ instrument }) => instrument ?? '')];
  await asked.query(
    `insert into watermeadow.series (greenhouse, place, quantity, instrument)
     select $1, * from unnest($2::text[], $3::text[], $4::text[]) on conflict do nothing`, values);
  const { rows } = await asked.query<Required<Series> & { id: number }>(
    `select s.place, s.quantity, s.instrument, s.id from watermeadow.series s
     join unnest($2::text[], $3::text[], $4::text[]) as wanted (place, quantity, instrument)
       on s.place = wanted.place and s.quantity = wanted.quantity and s.instrument = wanted.instrument where s.greenhouse = $1`, values);
  return rows.map((row) => [keyOf(row), row.id]);
}
