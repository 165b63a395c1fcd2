import type { Risk } from '../../desk/contract.ts';
import { LotLink } from '../crop/LotLink.tsx';
import { ScanLinks } from '../imaging/ScanLinks.tsx';
import { Status, type SignShape } from '../parts/Sign.tsx';

const SHAPES: Readonly<Record<Risk['severity'], SignShape>> = { 'act today': 'flag', watch: 'diamond', know: 'ring' };
const ORDER: readonly Risk['severity'][] = ['act today', 'watch', 'know'];

/** What may go wrong, the most pressing first, each with what is proposed against it. */
export function Risks({ risks }: { readonly risks: readonly Risk[] }) {
  if (risks.length === 0) return <p>Nothing that the forecasts or the water show.</p>;
  const sorted = [...risks].sort((a, b) => ORDER.indexOf(a.severity) - ORDER.indexOf(b.severity));
  return (
    <ul className="risks">
      {sorted.map((risk) => (
        <li key={risk.code + risk.subject} className={risk.severity === 'act today' ? 'act' : ''}>
          <Status shape={SHAPES[risk.severity]}>{risk.severity}</Status>
          <div><p>{risk.sentence}</p>{risk.proposal && <p className="proposal">{risk.proposal}</p>}{risk.lot && <p className="proposal">What could be done: lot <LotLink lot={risk.lot} /></p>}<ScanLinks basin={risk.subject} lot={risk.lot} /></div>
        </li>
      ))}
    </ul>
  );
}
