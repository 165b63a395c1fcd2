import type { ScoredExample } from './learnScores.ts';
import { plantFeatures } from './plantFeatures.ts';
import { scoreOf } from './plantScores.ts';
import { scanBefore, type ScanBook } from './scanBook.ts';
import { comparable } from './watchScan.ts';

/** Every plant that a grower scored, in the order in which it was scored. */
export function scoredExamples(book: ScanBook): ScoredExample[] {
  const examples: (ScoredExample & { readonly at: string })[] = [];
  for (const scanId of book.scores.keys()) {
    const scan = book.byScan.get(scanId);
    if (scan === undefined) continue;
    const before = scanBefore(book, scan);
    for (const [place, features] of plantFeatures(scan, before !== undefined && comparable(scan, before) ? before : undefined)) {
      const [raft, position] = place.split('/').map(Number) as [number, number];
      const score = scoreOf(book.scores, scanId, raft, position);
      if (score !== undefined) examples.push({ features, class: score.class, group: score.wholeRaft ? `${scan.lot} ${scan.basin} ${raft}` : `${scan.lot} ${scan.basin} ${place}`, at: score.at });
    }
  }
  return examples.sort((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : 0)).map(({ features, class: named, group }) => ({ features, class: named, group }));
}
