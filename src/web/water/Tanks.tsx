import type { TankView, WaterAnswer } from '../../desk/contract.ts';
import { Section } from '../parts/Section.tsx';
import { count } from '../words/figures.ts';
import { TankCard } from './TankCard.tsx';

const GROUPS: readonly { readonly title: string; readonly kinds: readonly TankView['kind'][] }[] = [
  { title: 'Fresh water and returned solution', kinds: ['fresh', 'return'] }, { title: 'Stocks, acid and base', kinds: ['stock', 'acid', 'base'] },
];

/** Every source, stock and return tank as it is this morning. */
export function Tanks({ water, zone }: { readonly water: WaterAnswer; readonly zone: string }) {
  const groups = GROUPS.map((group) => ({ ...group, tanks: water.tanks.filter(({ kind }) => group.kinds.includes(kind)) })).filter(({ tanks }) => tanks.length > 0);
  return (
    <Section title="Tanks" aside={water.tanks.length === 0 ? 'not known yet' : `${count(water.tanks.length, 'source')} of solution, this morning`}>
      {groups.map(({ title, tanks }) => (
        <div key={title} className="tank-group">
          <h3>{title}</h3>
          <ul className="tanks">{tanks.map((tank) => <TankCard key={tank.source} tank={tank} water={water} zone={zone} />)}</ul>
        </div>
      ))}
    </Section>
  );
}
