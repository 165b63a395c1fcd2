import { useState } from 'react';
import type { WaterAnswer, WaterFeed } from '../../desk/contract.ts';
import { Section } from '../parts/Section.tsx';
import { useNarrow } from '../parts/useNarrow.ts';
import { usePrinting } from '../parts/usePrinting.ts';
import { count, plain, withUnit } from '../words/figures.ts';
import { FeedCards } from './FeedCards.tsx';
import { FeedMatrix } from './FeedMatrix.tsx';

const AT_FIRST = 12;

/** Today's feeds, those first that could only come near their bands. */
export function WaterFeeds({ water, zone }: { readonly water: WaterAnswer; readonly zone: string }) {
  const [all, showAll] = useState(false);
  const narrow = useNarrow();
  const printing = usePrinting();
  const { feeds } = water;
  const near = feeds.filter(({ status }) => status === 'nearest possible').length;
  const some = all || printing ? feeds : feeds.slice(0, Math.max(AT_FIRST, near));
  if (feeds.length === 0) return <Section title="Today’s feeds"><p>No basin is filled today.</p></Section>;
  return (
    <Section title="Today’s feeds" aside={`${feeds.length}, ${near === 0 ? 'all within their bands' : `${near} only near their bands`}`}>
      <p>{wordsOf(feeds, near)}</p>
      {narrow && !printing ? <FeedCards feeds={some} water={water} zone={zone} /> : <FeedMatrix feeds={some} all={feeds} water={water} zone={zone} />}
      {some.length < feeds.length && <div className="choices no-print"><button type="button" onClick={() => showAll(true)}>Show all {count(feeds.length, 'feed')}</button></div>}
    </Section>
  );
}

/** How much cheaper the day's mixes could be at most, by the bound that was proven with each. */
function gapWords(feeds: readonly WaterFeed[]): string {
  const sum = (of: (feed: WaterFeed) => number) => feeds.reduce((total, feed) => total + of(feed), 0);
  const share = 1 - sum(({ costLowerBound }) => costLowerBound) / Math.max(1e-9, sum(({ cost }) => cost));
  return share < 0.0005 ? 'no cheaper ones do, which is proven' : `together no others that do are cheaper by more than ${withUnit(plain(100 * share, 2), '%')}, which is proven`;
}

function wordsOf(feeds: readonly WaterFeed[], near: number): string {
  const drained = feeds.filter(({ drainL }) => drainL > 0).length;
  const first = near === 0 ? `Every mix stands within the bands of its crop; ${gapWords(feeds)}.` : `${near === 1 ? 'One mix comes' : `${near} mixes come`} as near to the bands as what is at hand allows; they stand first.`;
  return `${first} ${drained === 0 ? 'No basin is drained before.' : `${count(drained, 'basin is', 'basins are')} drained in part before.`}`;
}
