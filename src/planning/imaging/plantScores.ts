import type { GreenhouseEvent } from '../../greenhouse/events.ts';
import type { ScoreClass } from '../../greenhouse/scanEvents.ts';

/** What a grower said of a plant last. */
export interface PlantScore { readonly class: ScoreClass; readonly words?: string; readonly by: string; readonly at: string; readonly wholeRaft: boolean }

/** Scores by scan, and within it by "raft/position" or, for whole rafts, by "raft". Marks that were taken back are left out. */
export type ScoreBook = ReadonlyMap<string, ReadonlyMap<string, PlantScore>>;

/** What all marks together say: a later mark of the same plant or raft replaces an earlier one. */
export function plantScores(events: readonly GreenhouseEvent[]): ScoreBook {
  const book = new Map<string, Map<string, PlantScore>>();
  for (const event of events) {
    if (event.kind !== 'plants-scored') continue;
    const { scan, by, marks } = event.body;
    const marked = book.get(scan) ?? new Map<string, PlantScore>();
    book.set(scan, marked);
    for (const { raft, position, class: named, words } of marks) {
      const key = position === undefined ? String(raft) : `${raft}/${position}`;
      if (named === 'unscored') marked.delete(key);
      else marked.set(key, { class: named, by, at: event.happenedAt, wholeRaft: position === undefined, ...(words === undefined ? {} : { words }) });
    }
  }
  return book;
}

/** The score of one plant: its own, else its raft's. */
export function scoreOf(book: ScoreBook, scan: string, raft: number, position: number): PlantScore | undefined {
  const marked = book.get(scan);
  return marked?.get(`${raft}/${position}`) ?? marked?.get(String(raft));
}
