import type { LotAnswer } from '../../desk/contract.ts';
import { Section } from '../parts/Section.tsx';
import { useNarrow } from '../parts/useNarrow.ts';
import { percent } from '../words/figures.ts';
import { dayMonth, daysBetween } from '../words/times.ts';

const DESK = { width: 600, height: 300, left: 44, right: 20, top: 24, bottom: 30 };
const PHONE = { width: 358, height: 240, left: 38, right: 24, top: 24, bottom: 30 };

/** Expected share of plants above market weight, day by day. */
export function ReadyShare({ answer: { lot, date, readyFreshG, readyShare } }: { readonly answer: LotAnswer }) {
  const box = useNarrow() ? PHONE : DESK;
  const days = lot.days.filter((day) => day.date >= date);
  if (days.length < 2) return null;
  const span = daysBetween(days[0]!.date, days.at(-1)!.date);
  const x = (day: string): number => box.left + (daysBetween(days[0]!.date, day) / span) * (box.width - box.left - box.right);
  const y = (share: number): number => box.height - box.bottom - share * (box.height - box.top - box.bottom);
  const steps = days.map((day) => `${x(day.date).toFixed(1)} ${y(day.readyShare).toFixed(1)}`).join('L');
  const first = days.find((day) => day.readyShare >= readyShare);
  const ticks = days.filter((_, i) => i % Math.max(1, Math.ceil(days.length / 5)) === 0);
  return (
    <Section title="Share that is ready" aside={`plants above ${readyFreshG} g`}>
      <p>{first === undefined ? `Within the forecast fewer than ${percent(readyShare)} of its plants are expected above market weight.` : `On ${dayMonth(first.date)} ${percent(first.readyShare)} of its plants are expected above market weight; it counts as ready at ${percent(readyShare)}.`}{saleableWords(first ?? days.at(-1)!)}</p>
      <figure className="fan">
        <svg viewBox={`0 0 ${box.width} ${box.height}`} role="img" aria-label={`Share of plants above market weight by day: ${ticks.map((day) => `${dayMonth(day.date)} ${Math.round(100 * day.readyShare)} %`).join(', ')}`}>
          <g className="axes">
            {[0, 0.25, 0.5, 0.75, 1].map((share) => <g key={share}><line x1={box.left} x2={box.width - box.right} y1={y(share)} y2={y(share)} /><text x={box.left - 6} y={y(share) + 4} textAnchor="end">{Math.round(100 * share)}</text></g>)}
            <text x={0} y={12}>%</text>
            {ticks.map((day) => <g key={day.date}><line x1={x(day.date)} x2={x(day.date)} y1={box.height - box.bottom} y2={box.height - box.bottom + 5} className="tick" /><text x={x(day.date)} y={box.height - box.bottom + 20} textAnchor="middle">{dayMonth(day.date)}</text></g>)}
          </g>
          <path d={`M${x(days[0]!.date)} ${y(0)}L${steps}L${x(days.at(-1)!.date)} ${y(0)}Z`} className="inner" />
          <path d={`M${steps}`} className="middle" />
          <g className="level"><line x1={box.left} x2={box.width - box.right} y1={y(readyShare)} y2={y(readyShare)} /><text x={box.left + 6} y={y(readyShare) - 5}>ready at {Math.round(100 * readyShare)} %</text></g>
        </svg>
        <figcaption className="soft small">Expected share of plants above market weight, %, from today on: mean over the members of the forecast.</figcaption>
      </figure>
    </Section>
  );
}

/** Weight and sale are two figures: a plant above market weight may be tip-burnt. */
function saleableWords({ date, saleableShare }: LotAnswer['lot']['days'][number]): string {
  return saleableShare === undefined ? '' : ` ${percent(saleableShare)} are expected to be fit for sale on ${dayMonth(date)}, tip-burn counted.`;
}
