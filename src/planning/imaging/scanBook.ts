import type { GreenhouseEvent } from '../../greenhouse/events.ts';
import type { ScanMeasured, ScanRefused } from '../../greenhouse/scanEvents.ts';
import { plantScores, type ScoreBook } from './plantScores.ts';

/** All scans of a journal, at hand. */
export interface ScanBook {
  readonly byScan: ReadonlyMap<string, ScanMeasured>;
  /** In the order in which they were taken. */
  readonly byBasin: ReadonlyMap<string, readonly ScanMeasured[]>;
  readonly refused: readonly ScanRefused[];
  readonly scores: ScoreBook;
}

export function scanBook(events: readonly GreenhouseEvent[]): ScanBook {
  const byScan = new Map<string, ScanMeasured>(), byBasin = new Map<string, ScanMeasured[]>(), refused: ScanRefused[] = [];
  for (const event of events) {
    if (event.kind === 'scan-refused') refused.push(event.body);
    if (event.kind !== 'scan-measured' || byScan.has(event.body.scan)) continue;
    byScan.set(event.body.scan, event.body);
    byBasin.set(event.body.basin, [...byBasin.get(event.body.basin) ?? [], event.body]);
  }
  for (const scans of byBasin.values()) scans.sort((a, b) => (a.takenAt < b.takenAt ? -1 : a.takenAt > b.takenAt ? 1 : 0));
  return { byScan, byBasin, refused, scores: plantScores(events) };
}

/** The scans of the same lot in the same basin, in the order in which they were taken, this one included. */
export const sameLot = (book: ScanBook, { basin, lot }: ScanMeasured): readonly ScanMeasured[] => (book.byBasin.get(basin) ?? []).filter((scan) => scan.lot === lot);

/** The scan before, of the same plants. */
export const scanBefore = (book: ScanBook, scan: ScanMeasured): ScanMeasured | undefined => sameLot(book, scan).findLast(({ takenAt }) => takenAt < scan.takenAt);
