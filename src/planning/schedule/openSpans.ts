/** Spans of time in which work may happen, as sorted, disjoint, non-empty spans. */
import type { TimeSpan } from './scheduleProblem.ts';

/** The span without its breaks. Breaks may overlap and lie partly outside. */
export function cutBreaks(span: TimeSpan, breaks: readonly TimeSpan[] = []): TimeSpan[] {
  let open: TimeSpan[] = span.toS > span.fromS ? [span] : [];
  for (const pause of breaks) open = open.flatMap((piece) => cutOne(piece, pause));
  return open;
}

function cutOne(piece: TimeSpan, pause: TimeSpan): TimeSpan[] {
  if (pause.toS <= pause.fromS || pause.toS <= piece.fromS || pause.fromS >= piece.toS) return [piece];
  const before = { fromS: piece.fromS, toS: pause.fromS };
  const after = { fromS: pause.toS, toS: piece.toS };
  return [before, after].filter((part) => part.toS > part.fromS);
}

/** Times that lie in both lists of spans. */
export function intersectSpans(first: readonly TimeSpan[], second: readonly TimeSpan[]): TimeSpan[] {
  const both = first.flatMap((a) =>
    second.map((b) => ({ fromS: Math.max(a.fromS, b.fromS), toS: Math.min(a.toS, b.toS) })));
  return both.filter((span) => span.toS > span.fromS).sort((a, b) => a.fromS - b.fromS);
}

/** Open seconds within [fromS, toS]. */
export function openSecondsWithin(spans: readonly TimeSpan[], fromS: number, toS: number): number {
  let open = 0;
  for (const span of spans) open += Math.max(0, Math.min(toS, span.toS) - Math.max(fromS, span.fromS));
  return open;
}

/** Earliest start at or after fromS of a piece of work that is not interrupted; undefined where none fits. */
export function earliestFit(spans: readonly TimeSpan[], fromS: number, lengthS: number): number | undefined {
  for (const span of spans) {
    const start = Math.max(fromS, span.fromS);
    if (start + lengthS <= span.toS) return start;
  }
  return undefined;
}

/** Latest end at or before toS of a piece of work that is not interrupted; undefined where none fits. */
export function latestFit(spans: readonly TimeSpan[], toS: number, lengthS: number): number | undefined {
  for (let i = spans.length - 1; i >= 0; i--) {
    const span = spans[i] as TimeSpan;
    const end = Math.min(toS, span.toS);
    if (end - lengthS >= span.fromS) return end;
  }
  return undefined;
}
