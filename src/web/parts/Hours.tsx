import type { ReactNode } from 'react';
import { count } from '../words/figures.ts';
import { Folds } from './Folds.tsx';
import { hoursOf } from './hoursOf.ts';

interface Props<T> {
  readonly items: readonly T[];
  readonly beginsAt: (item: T) => string;
  readonly nowAt: string;
  readonly zone: string;
  /** What one of them is called. */
  readonly one: string;
  /** The one that somebody came for: its hour lies open too. */
  readonly asked?: (item: T) => boolean;
  readonly note?: (items: readonly T[]) => string;
  readonly children: (items: readonly T[]) => ReactNode;
}

/** A long list by the hour; this hour lies open. */
export function Hours<T>({ items, beginsAt, nowAt, zone, one, asked, note, children }: Props<T>) {
  const groups = hoursOf(items, beginsAt, nowAt, zone).map((group) => {
    const extra = note?.(group.items);
    return { ...group, open: group.open || (asked !== undefined && group.items.some(asked)), note: `${count(group.items.length, one)}${extra ? `, ${extra}` : ''}` };
  });
  return <Folds groups={groups} many="hours">{children}</Folds>;
}
