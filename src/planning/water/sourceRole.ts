import type { SourceWater } from './sourceWaters.ts';

/** What a source is to the person who pours it, in the order in which sources go into a basin. */
export const SOURCE_ROLES = ['fresh', 'return', 'calcium', 'stock', 'base', 'acid'] as const;
export type SourceRole = (typeof SOURCE_ROLES)[number];

/** From what the source is made of, whatever kind it was called: a stock with acid in it is an acid. */
export function sourceRole({ source, cautions }: Pick<SourceWater, 'source' | 'cautions'>): SourceRole {
  if (source.kind === 'fresh' || source.kind === 'return') return source.kind;
  if (cautions.includes('acid')) return 'acid';
  if (cautions.includes('alkaline')) return 'base';
  if (source.kind !== 'stock') return source.kind;
  return cautions.includes('calcium') ? 'calcium' : 'stock';
}

/** Whether it is water to dilute with, and not a concentrate. */
export const isWater = (from: Pick<SourceWater, 'source' | 'cautions'>): boolean => ['fresh', 'return'].includes(sourceRole(from));
