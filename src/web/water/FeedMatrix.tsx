import { Fragment, useState } from 'react';
import type { TankView, WaterAnswer, WaterFeed } from '../../desk/contract.ts';
import { BasinLink } from '../parts/BasinLink.tsx';
import { Sign } from '../parts/Sign.tsx';
import { fixed } from '../words/figures.ts';
import { clockTime } from '../words/times.ts';
import { FeedReasons } from './FeedReasons.tsx';

interface Props { readonly feeds: readonly WaterFeed[]; readonly all: readonly WaterFeed[]; readonly water: WaterAnswer; readonly zone: string }

/** Basins in rows, sources in columns, litres where they meet. */
export function FeedMatrix({ feeds, all, water, zone }: Props) {
  const [open, setOpen] = useState<string>();
  const columns = columnsOf(all, water.tanks);
  const drains = all.some(({ drainL }) => drainL > 0);
  return (
    <div className="wide">
      <table className="feed-matrix">
        <thead>
          <tr><th scope="col">at</th><th scope="col">Basin</th>{drains && <th scope="col" className="number">drain</th>}{columns.map(({ id, title }) => <th key={id} scope="col" className="number">{title}</th>)}<th scope="col" className="number">added</th><th scope="col" className="number">EC</th><th scope="col" className="number">pH</th><th scope="col">bands</th><th scope="col"><span className="only-read">why this mix</span></th></tr>
          <tr className="units"><th /><th />{drains && <th className="number">L</th>}{columns.map(({ id }) => <th key={id} className="number">L</th>)}<th className="number">L</th><th className="number">mS/cm</th><th /><th /><th /></tr>
        </thead>
        <tbody>
          {feeds.map((feed) => (
            <Fragment key={feed.ticket}>
              <tr className={feed.status === 'nearest possible' ? 'near' : ''}>
                <td className="figures">{clockTime(feed.startAt, zone)}</td>
                <th scope="row"><BasinLink basin={feed.basin} /> <span className="soft small">{feed.cropTitle}</span></th>
                {drains && <td className="number">{feed.drainL > 0 ? fixed(feed.drainL, 1) : ''}</td>}
                {columns.map(({ id, decimals }) => { const draw = feed.draws.find(({ source }) => source === id); return <td key={id} className="number">{draw ? fixed(draw.litres, decimals) : <span className="dot" aria-label="none">·</span>}</td>; })}
                <td className="number"><b>{fixed(feed.addedL, feed.addedL < 1 ? 3 : 1)}</b></td>
                <td className="number">{fixed(feed.after.ecMsPerCm25, 2)}</td>
                <td className="number">{feed.after.pH === undefined ? '–' : fixed(feed.after.pH, 1)}</td>
                <td className="result"><Sign shape={feed.status === 'within bands' ? 'tick' : 'flag'} /> {feed.status === 'within bands' ? 'within' : feed.status}</td>
                <td className="no-print"><button type="button" className="toggle quiet" aria-expanded={open === feed.ticket} aria-label={`Why this mix for basin ${feed.basin}`} onClick={() => setOpen(open === feed.ticket ? undefined : feed.ticket)}>reasons</button></td>
              </tr>
              {open === feed.ticket && <tr className="reasons-row"><td /><td colSpan={columns.length + (drains ? 7 : 6)}><FeedReasons feed={feed} water={water} /></td></tr>}
            </Fragment>
          ))}
        </tbody>
        <tfoot><tr><th scope="row" colSpan={2}>All {all.length} feeds</th>{drains && <td className="number">{fixed(all.reduce((sum, { drainL }) => sum + drainL, 0), 1)}</td>}{columns.map(({ id, decimals, totalL }) => <td key={id} className="number">{fixed(totalL, decimals)}</td>)}<td className="number"><b>{fixed(all.reduce((sum, { addedL }) => sum + addedL, 0), 1)}</b></td><td colSpan={4} /></tr></tfoot>
      </table>
    </div>
  );
}

/** Sources that are drawn from today, in the order of the greenhouse. */
function columnsOf(feeds: readonly WaterFeed[], tanks: readonly TankView[]) {
  const drawn = new Map<string, { id: string; title: string; decimals: number; totalL: number }>();
  for (const { source, title, kind, litres } of feeds.flatMap(({ draws }) => draws)) {
    const known = drawn.get(source) ?? { id: source, title, decimals: kind === 'fresh' || kind === 'return' ? 1 : 3, totalL: 0 };
    drawn.set(source, { ...known, totalL: known.totalL + litres });
  }
  const order = tanks.map(({ source }) => source);
  return [...drawn.values()].sort((a, b) => order.indexOf(a.id) - order.indexOf(b.id));
}
