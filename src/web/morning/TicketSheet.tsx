import type { FeedTicket, SolutionView } from '../../desk/contract.ts';
import { useTitleOf } from '../ask/useTitleOf.ts';
import { Sign, Status } from '../parts/Sign.tsx';
import { Why } from '../parts/Why.tsx';
import { fixed, grams, litres, withUnit } from '../words/figures.ts';
import { clockTime } from '../words/times.ts';

interface Props {
  readonly feed: FeedTicket;
  readonly startAt: string | undefined;
  readonly zone: string;
  readonly currency: string;
  readonly open: boolean;
  readonly toggle: () => void;
}

/** One feed ticket: what to draw in litres and grams, in which order, and what the water is before and after. */
export function TicketSheet({ feed, startAt, zone, currency, open, toggle }: Props) {
  const id = `ticket-${feed.ticket}`;
  return (
    <article className="ticket" id={id} aria-label={`Feed ticket of basin ${feed.basin}`}>
      <h4>
        <button type="button" className="ticket-head" aria-expanded={open} aria-controls={`${id}-inside`} onClick={toggle}>
          <TicketHead feed={feed} startAt={startAt} zone={zone} />
        </button>
        <span className="only-print ticket-head"><TicketHead feed={feed} startAt={startAt} zone={zone} /></span>
      </h4>
      <div id={`${id}-inside`} className={open ? 'ticket-inside' : 'ticket-inside folded'}>
        <DrawTable feed={feed} />
        <WaterTable feed={feed} />
        <div className="ticket-steps">
          <h5>In this order</h5>
          <ol>{feed.steps.map((step) => <li key={step}>{step}</li>)}</ol>
          {feed.violations.length > 0 && <p><Status shape="flag">Outside its bands</Status> {feed.violations.join('; ')}.</p>}
          {feed.binding.length > 0 && <p className="soft small">What limits this mix: {feed.binding.join('; ')}.</p>}
          <p className="soft small">Cost {withUnit(fixed(feed.cost, 2), currency)}; no mix within the bands costs less than {withUnit(fixed(feed.costLowerBound, 2), currency)}. <Why source={feed.why} of={`the feed of basin ${feed.basin}`} /></p>
        </div>
      </div>
    </article>
  );
}

function TicketHead({ feed, startAt, zone }: Pick<Props, 'feed' | 'startAt' | 'zone'>) {
  return (
    <>
      <span className="figures">{clockTime(startAt, zone)}</span>
      <b>{feed.basin}</b>
      <span>{useTitleOf()(feed.crop)}</span>
      <span className="figures">{feed.drainL > 0 ? `drain ${litres(feed.drainL)}, ` : ''}add {litres(feed.addedL)}</span>
      <span className="ticket-status"><Sign shape={feed.status === 'within bands' ? 'tick' : 'flag'} /> {feed.status}</span>
    </>
  );
}

function DrawTable({ feed }: { readonly feed: FeedTicket }) {
  const titleOf = useTitleOf();
  return (
    <table>
      <thead><tr><th scope="col">Draw from</th><th scope="col" className="number">litres</th><th scope="col">holds, in grams</th></tr></thead>
      <tbody>
        {feed.drainL > 0 && <tr><th scope="row">Drain first</th><td className="number">{litres(feed.drainL)}</td><td /></tr>}
        {feed.draws.map((draw) => (
          <tr key={draw.source}>
            <th scope="row">{draw.title}</th>
            <td className="number"><b>{litres(draw.litres)}</b></td>
            <td className="small">{Object.entries(draw.grams).map(([product, mass]) => `${titleOf(product)} ${grams(mass)}`).join(', ')}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

const SHOWN = ['NO3', 'NH4', 'P', 'K', 'Ca', 'Mg', 'SO4', 'Na', 'Cl'] as const;

function WaterTable({ feed }: { readonly feed: FeedTicket }) {
  const { before, after, bandMmolPerL } = feed;
  const row = (name: string, unit: string, of: (view: SolutionView) => number | undefined, decimals: number, band?: readonly [number, number]) => (
    <tr key={name}><th scope="row">{name}</th><td className="number">{words(of(before), decimals)}</td><td className="number"><b>{words(of(after), decimals)}</b></td><td className="number">{band ? `${fixed(band[0], decimals)}–${fixed(band[1], decimals)}` : ''}</td><td className="soft">{unit}</td></tr>
  );
  return (
    <table className="water-table">
      <thead><tr><th scope="col">Water</th><th scope="col" className="number">before</th><th scope="col" className="number">after</th><th scope="col" className="number">band</th><th scope="col"><span className="only-read">unit</span></th></tr></thead>
      <tbody>
        {row('volume', 'L', (view) => view.volumeL, 0)}
        {row('EC at 25 °C', 'mS/cm', (view) => view.ecMsPerCm25, 2)}
        {row('pH', '', (view) => view.pH, 1)}
        {SHOWN.map((name) => row(name, 'mmol/L', (view) => view.mmolPerL[name], 2, bandMmolPerL[name]))}
      </tbody>
    </table>
  );
}

const words = (value: number | undefined, decimals: number): string => (value === undefined ? 'not known' : fixed(value, decimals));
