import { useState, type ReactNode } from 'react';
import { count } from '../words/figures.ts';
import { hoursOf, type HourGroup } from './hoursOf.ts';

interface Props<T> {
  readonly items: readonly T[];
  readonly beginsAt: (item: T) => string;
  readonly nowAt: string;
  readonly zone: string;
  /** What one of them is called. */
  readonly one: string;
  readonly note?: (items: readonly T[]) => string;
  readonly children: (items: readonly T[]) => ReactNode;
}

/** A long list by the hour: this hour and the next lie open, the others open by hand, and all of them on paper. */
export function Hours<T>({ items, beginsAt, nowAt, zone, one, note, children }: Props<T>) {
  const [turned, turn] = useState<Readonly<Record<string, boolean>>>({});
  const groups = hoursOf(items, beginsAt, nowAt, zone);
  const isOpen = (group: HourGroup<T>) => turned[group.key] ?? group.open;
  const every = groups.every(isOpen);
  return (
    <>
      {groups.length > 2 && <div className="choices no-print"><button type="button" onClick={() => turn(Object.fromEntries(groups.map((group) => [group.key, !every])))}>{every ? 'Fold all hours' : 'Unfold all hours'}</button></div>}
      {groups.map((group) => {
        const extra = note?.(group.items);
        const words = `${count(group.items.length, one)}${extra ? `, ${extra}` : ''}`;
        return (
          <div key={group.key} className={`hour${isOpen(group) ? '' : ' folded'}`}>
            <h3>
              <button type="button" aria-expanded={isOpen(group)} onClick={() => turn({ ...turned, [group.key]: !isOpen(group) })}><span className="turner" aria-hidden="true" />{group.title} <span className="soft">{words}</span></button>
              <span className="only-print">{group.title}, {words}</span>
            </h3>
            <div className="hour-inside">{children(group.items)}</div>
          </div>
        );
      })}
    </>
  );
}
