import type { DayAccount } from '../../desk/contract.ts';
import { useTitleOf } from '../ask/useTitleOf.ts';
import { Section } from '../parts/Section.tsx';
import { Why } from '../parts/Why.tsx';
import { fixed, litres, grams, plain, withUnit } from '../words/figures.ts';

/** What the day takes: water, products, energy, way, cost and emissions. */
export function DayAccountTable({ account }: { readonly account: DayAccount }) {
  const titleOf = useTitleOf();
  return (
    <Section title="What the day takes" aside={<>computed from the plan, not measured <Why source={account.why} of="what the day takes" /></>}>
      <div className="account">
        <Rows title="Water" rows={[...entries(account.waterL, litres, titleOf), ['from return tanks', litres(account.returnedL)], ['discharged', litres(account.dischargedL)]]} />
        <Rows title="Products" rows={entries(account.productG, grams, titleOf)} />
        <Rows title="Way and energy" rows={[['vehicles, loaded', metres(account.vehicleLoadedM)], ['vehicles, empty', metres(account.vehicleEmptyM)], ['lamps', withUnit(plain(account.lampKWh), 'kWh')]]} />
        <Rows title="Cost and emissions" rows={[['feeds', withUnit(fixed(account.feedCost, 2), account.currency)], ['emissions', withUnit(plain(account.kgCo2e), 'kg CO₂e')]]} />
      </div>
    </Section>
  );
}

function Rows({ title, rows }: { readonly title: string; readonly rows: readonly (readonly [string, string])[] }) {
  return (
    <table>
      <caption>{title}</caption>
      <tbody>{rows.map(([name, value]) => <tr key={name}><th scope="row">{name}</th><td className="number">{value}</td></tr>)}</tbody>
    </table>
  );
}

const metres = (value: number): string => withUnit(fixed(value, 0), 'm');
const entries = (table: Readonly<Record<string, number>>, words: (value: number) => string, titleOf: (id: string) => string) => Object.entries(table).map(([name, value]) => [titleOf(name), words(value)] as const);
