import { useState } from 'react';
import type { WaterAnswer, WaterFeed } from '../../desk/contract.ts';
import { BasinLink } from '../parts/BasinLink.tsx';
import { Status } from '../parts/Sign.tsx';
import { fixed, litres, withUnit } from '../words/figures.ts';
import { clockTime } from '../words/times.ts';
import { FeedReasons } from './FeedReasons.tsx';

/** The same feeds one below the other, for a phone. */
export function FeedCards({ feeds, water, zone }: { readonly feeds: readonly WaterFeed[]; readonly water: WaterAnswer; readonly zone: string }) {
  const [open, setOpen] = useState<string>();
  return (
    <ul className="feed-cards">
      {feeds.map((feed) => (
        <li key={feed.ticket}>
          <p><BasinLink basin={feed.basin} /> <span>{feed.cropTitle}</span> <span className="soft figures">{clockTime(feed.startAt, zone)}</span></p>
          <p><Status shape={feed.status === 'within bands' ? 'tick' : 'flag'}>{feed.status}</Status></p>
          <table>
            <tbody>
              {feed.drainL > 0 && <tr><th scope="row">drain first</th><td className="number">{litres(feed.drainL)}</td></tr>}
              {feed.draws.map((draw) => <tr key={draw.source}><th scope="row">{draw.title}</th><td className="number">{withUnit(fixed(draw.litres, draw.kind === 'fresh' || draw.kind === 'return' ? 1 : 3), 'L')}</td></tr>)}
              <tr><th scope="row">makes</th><td className="number">EC {fixed(feed.after.ecMsPerCm25, 2)}{feed.after.pH === undefined ? '' : `, pH ${fixed(feed.after.pH, 1)}`}</td></tr>
            </tbody>
          </table>
          <button type="button" className="toggle" aria-expanded={open === feed.ticket} aria-label={`Why this mix for basin ${feed.basin}`} onClick={() => setOpen(open === feed.ticket ? undefined : feed.ticket)}>Why this mix</button>
          {open === feed.ticket && <FeedReasons feed={feed} water={water} />}
        </li>
      ))}
    </ul>
  );
}
