import type { ClientBase } from 'pg';
import type { Reading } from '../../greenhouse/journalEvent.ts';
import { readInstant, writeInstant } from '../instant.ts';
import type { Asked } from '../journal/eventTable.ts';
import type { LatestWish, ReadingsWish } from '../store.ts';

interface StoredReading { place: string; quantity: string; instrument: string; at_ms: number; value: number; sd: number | null }

const ROWS_A_STATEMENT = 10_000;
const COLUMNS = 's.place, s.quantity, s.instrument, (extract(epoch from r.at) * 1000)::double precision as at_ms, r.value, r.sd';

/** Adds what is new, in statements of bounded size; how many rows were new. `series` are the numbers of the readings' series. The caller brackets it in a transaction where all or none matters. */
export async function insertReadings(client: Pick<ClientBase, 'query'>, greenhouse: number, readings: readonly Reading[], series: readonly number[]): Promise<number> {
  let added = 0;
  for (let from = 0; from < readings.length; from += ROWS_A_STATEMENT) {
    const some = readings.slice(from, from + ROWS_A_STATEMENT);
    const { rowCount } = await client.query({
      name: 'insert-readings',
      text: `insert into watermeadow.reading (greenhouse, series, at, value, sd)
        select $1, series, to_timestamp(at_ms / 1000), value, sd
        from unnest($2::integer[], $3::double precision[], $4::double precision[], $5::double precision[]) as given (series, at_ms, value, sd)
        on conflict do nothing`,
      values: [greenhouse, series.slice(from, from + ROWS_A_STATEMENT), some.map(({ at }) => readInstant(at)), some.map(({ value }) => value), some.map(({ sd }) => sd ?? null)],
    });
    added += rowCount ?? 0;
  }
  return added;
}

/**
 * Readings of a span of time, oldest first. Series and readings are asked for one after the other: joined, a database that has not
 * yet counted its tables may go through all readings once for each series.
 */
export async function readRange(asked: Asked, greenhouse: number, wish: ReadingsWish): Promise<Reading[]> {
  const { rows: series } = await asked.query<Series>(
    `select id, place, quantity, instrument from watermeadow.series
     where greenhouse = $1 and ($2::text is null or place = $2) and ($3::text is null or quantity = $3)
     order by place collate "C", quantity collate "C", instrument collate "C"`,
    [greenhouse, wish.place ?? null, wish.quantity ?? null]);
  const { rows } = await asked.query<Omit<StoredReading, keyof Series> & { series: number }>(
    `select r.series, (extract(epoch from r.at) * 1000)::double precision as at_ms, r.value, r.sd from watermeadow.reading r
     where r.greenhouse = $1 and r.series = any($2::integer[]) and r.at >= $3 and r.at < $4`,
    [greenhouse, series.map(({ id }) => id), wish.from, wish.to]);
  const rank = new Map(series.map(({ id }, i) => [id, i]));
  const ranked = rows.map((row) => ({ row, rank: rank.get(row.series) as number }));
  ranked.sort((one, other) => one.row.at_ms - other.row.at_ms || one.rank - other.rank);
  return ranked.map(({ row, rank: i }) => fromStored({ ...row, ...(series[i] as Series) }));
}

interface Series { id: number; place: string; quantity: string; instrument: string }

/** The newest reading of each place and quantity up to an instant, by place and quantity. */
export async function readLatest(asked: Asked, greenhouse: number, wish: LatestWish): Promise<Reading[]> {
  const { rows } = await asked.query<StoredReading>(
    `select distinct on (s.place collate "C", s.quantity collate "C") ${COLUMNS}
     from watermeadow.series s
     cross join lateral (select at, value, sd from watermeadow.reading
       where greenhouse = s.greenhouse and series = s.id and at <= $2 order by at desc limit 1) r
     where s.greenhouse = $1 and ($3::text is null or s.place = $3)
     order by s.place collate "C", s.quantity collate "C", r.at desc, s.instrument collate "C"`,
    [greenhouse, wish.at ?? 'infinity', wish.place ?? null]);
  return rows.map(fromStored);
}

/** One page of everything, in the order of the table: for backups. */
export async function readPage(asked: Asked, greenhouse: number, after: PageEnd | undefined, limit: number): Promise<{ readings: Reading[]; end?: PageEnd }> {
  const { rows } = await asked.query<StoredReading & PageEnd>(
    `select ${COLUMNS}, r.series, r.at::text as at from watermeadow.reading r join watermeadow.series s on s.greenhouse = r.greenhouse and s.id = r.series
     where r.greenhouse = $1 and (r.series, r.at) > ($2, $3::timestamptz) order by r.series, r.at limit $4`,
    [greenhouse, after?.series ?? 0, after?.at ?? '-infinity', limit]);
  const last = rows.at(-1);
  return { readings: rows.map(fromStored), ...(last === undefined ? {} : { end: { series: last.series, at: last.at } }) };
}

export interface PageEnd { readonly series: number; readonly at: string }

const fromStored = (row: StoredReading): Reading => ({
  at: writeInstant(row.at_ms), place: row.place, quantity: row.quantity, value: row.value,
  ...(row.sd === null ? {} : { sd: row.sd }), ...(row.instrument === '' ? {} : { instrument: row.instrument }),
});
