import { Link } from '@tanstack/react-router';
import type { WaterAnswer, WaterFeed } from '../../desk/contract.ts';
import { Status } from '../parts/Sign.tsx';
import { Why } from '../parts/Why.tsx';
import { asSentence, fixed, withUnit } from '../words/figures.ts';

/** Why a basin gets this mix: what could not be met, which bounds bind and what more room would be worth, what it costs against the least possible. */
export function FeedReasons({ feed, water }: { readonly feed: WaterFeed; readonly water: WaterAnswer }) {
  const named = (words: string) => asSentence(nameComponents(nameSources(words, water), water));
  return (
    <div className="reasons">
      {feed.violations.map((words) => <p key={words}><Status shape="flag">outside its band</Status> {named(words)}</p>)}
      {feed.binding.length === 0 ? <p>No bound holds this mix: any small change of it would stay within the bands.</p> : <ul>{feed.binding.map((words) => <li key={words}>{named(words)}</li>)}</ul>}
      <p className="soft">Costs {withUnit(fixed(feed.cost, 3), water.currency)}; nothing within the bands costs less than {withUnit(fixed(feed.costLowerBound, 3), water.currency)}. <Why source={feed.why} of={`the feed of basin ${feed.basin}`} /></p>
      <p><Link to="/" hash={`ticket-${feed.ticket}`} className="button">Ticket of {feed.basin}</Link></p>
    </div>
  );
}

/** A bound on a component begins with its symbol; people read its name. */
function nameComponents(words: string, { components }: WaterAnswer): string {
  const [first = '', ...rest] = words.split(' ');
  return [components.find(({ id }) => id === first)?.name ?? first, ...rest].join(' ');
}

/** Ids of sources in the words of a bound, by the titles that people know. */
function nameSources(words: string, { tanks }: WaterAnswer): string {
  return tanks.reduce((named, { source, title }) => named.replace(new RegExp(`(^|[^A-Za-z0-9-])${source.replaceAll('.', '\\.')}(?![A-Za-z0-9-])`), `$1${title}`), words);
}
