import type { ComponentName, TankProjection, TankView } from '../../desk/contract.ts';
import { Section } from '../parts/Section.tsx';
import { Status } from '../parts/Sign.tsx';
import { useNarrow } from '../parts/useNarrow.ts';
import { Why } from '../parts/Why.tsx';
import { bare, litres, plain } from '../words/figures.ts';
import { dayMonth, inDays, shortDate } from '../words/times.ts';
import { laySalt, type SaltFrame } from './laySalt.ts';

const DESK: SaltFrame = { width: 560, height: 240, left: 40, right: 14, top: 26, bottom: 28 };
const PHONE: SaltFrame = { width: 358, height: 220, left: 34, right: 10, top: 26, bottom: 28 };

interface Props { readonly tanks: readonly TankView[]; readonly components: readonly ComponentName[]; readonly date: string }

/** What the crops leave behind, in each return tank, against the limit of the strictest crop. */
export function SaltCharts({ tanks, components, date }: Props) {
  const watched = tanks.filter(({ projections }) => projections.length > 0);
  return (
    <Section title="Sodium and chloride in the return tanks" aside={watched.length === 0 ? 'no projection yet' : 'where they are heading'}>
      {watched.length === 0 && <p>No return tank has a projection yet.</p>}
      {watched.map((tank) => (
        <div key={tank.source} className="salt-tank">
          <h3>{tank.title} <Why source={tank.why} of={`sodium and chloride in ${tank.title}`} /></h3>
          <div className="salts">{tank.projections.map((projection) => <SaltChart key={projection.component} projection={projection} name={components.find(({ id }) => id === projection.component)?.name ?? projection.component} date={date} />)}</div>
        </div>
      ))}
    </Section>
  );
}

function SaltChart({ projection, name, date }: { readonly projection: TankProjection; readonly name: string; readonly date: string }) {
  const frame = useNarrow() ? PHONE : DESK;
  const laid = laySalt(projection, frame);
  return (
    <figure className="salt">
      <p>{projection.dischargeBy === undefined ? <Status shape="tick">no discharge needed</Status> : <Status shape="flag">discharge a part by {shortDate(projection.dischargeBy)}, {inDays(date, projection.dischargeBy)}</Status>}</p>
      <p>{projection.sentence}{projection.dischargeLPerDay === undefined ? '' : ` From then on ${litres(projection.dischargeLPerDay)} a day hold it.`}</p>
      {laid && (
        <svg viewBox={`0 0 ${frame.width} ${frame.height}`} role="img" aria-label={`${name} in mmol/L from ${dayMonth(projection.days[0]!.date)} to ${dayMonth(projection.days.at(-1)!.date)}, from ${plain(projection.days[0]!.mmolPerL)} to ${plain(projection.days.at(-1)!.mmolPerL)}; limit ${bare(projection.limitMmolPerL)}`}>
          {laid.ticks.map(({ value, y }) => <g key={value} className="axes"><line x1={frame.left} x2={frame.width - frame.right} y1={y} y2={y} /><text x={frame.left - 6} y={y + 4} textAnchor="end">{bare(value)}</text></g>)}
          <text x="0" y="12">{name}, mmol/L</text>
          {laid.dates.map(({ date: day, x }) => <text key={day} x={x} y={frame.height - 8} textAnchor={x < frame.left + 20 ? 'start' : x > frame.width - 40 ? 'end' : 'middle'}>{dayMonth(day)}</text>)}
          <path d={laid.band} className="doubt" />
          <path d={laid.line} className="middle" />
          <line x1={frame.left} x2={frame.width - frame.right} y1={laid.limitY} y2={laid.limitY} className="limit" />
          <text x={frame.left + 6} y={laid.limitY - 5} className="limit-name">limit {bare(projection.limitMmolPerL)}</text>
          {laid.dischargeX !== undefined && <g className="discharge"><line x1={laid.dischargeX} x2={laid.dischargeX} y1={frame.top} y2={frame.height - frame.bottom} /><path d={`M${laid.dischargeX} ${laid.limitY - 7}l6 7-6 7-6-7z`} /></g>}
        </svg>
      )}
      <figcaption className="soft small">Line: expected if every day were like today’s plan. Band: one standard deviation of what is known today.{projection.plateauMmolPerL === undefined ? '' : ` It would level off at ${plain(projection.plateauMmolPerL)} mmol/L.`}</figcaption>
    </figure>
  );
}
