import { useState, type ReactNode } from 'react';
import { usePrinting } from './usePrinting.ts';

export interface FoldGroup<T> { readonly key: string; readonly title: string; readonly note: string; readonly items: readonly T[]; readonly open: boolean }

interface Props<T> {
  readonly groups: readonly FoldGroup<T>[];
  /** What the groups are called: "hours", "days". */
  readonly many: string;
  readonly children: (items: readonly T[]) => ReactNode;
}

/** A long list in groups: what matters now lies open, the others open by hand, and all of them on paper. */
export function Folds<T>({ groups, many, children }: Props<T>) {
  const [turned, turn] = useState<Readonly<Record<string, boolean>>>({});
  const isOpen = (group: FoldGroup<T>) => turned[group.key] ?? group.open;
  const every = groups.every(isOpen);
  return (
    <>
      {groups.length > 2 && <div className="choices no-print"><button type="button" onClick={() => turn(Object.fromEntries(groups.map((group) => [group.key, !every])))}>{every ? `Fold all ${many}` : `Unfold all ${many}`}</button></div>}
      {groups.map((group) => (
        <div key={group.key} className={`fold${isOpen(group) ? '' : ' folded'}`}>
          <h3>
            <button type="button" aria-expanded={isOpen(group)} onClick={() => turn({ ...turned, [group.key]: !isOpen(group) })}><span className="turner" aria-hidden="true" />{group.title} <span className="soft">{group.note}</span></button>
            <span className="only-print">{group.title}, {group.note}</span>
          </h3>
          {isOpen(group) ? <div className="fold-inside">{children(group.items)}</div> : <PrintedOnly>{() => children(group.items)}</PrintedOnly>}
        </div>
      ))}
    </>
  );
}

/** What lies folded is drawn only when the page goes to a printer: a long day has thousands of elements. */
function PrintedOnly({ children }: { readonly children: () => ReactNode }) {
  return usePrinting() ? <div className="fold-inside">{children()}</div> : null;
}
