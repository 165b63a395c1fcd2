import type { ComponentName, TankView, WaterAnswer } from '../../desk/contract.ts';
import { Sign } from '../parts/Sign.tsx';
import { asSentence, bare, fixed, litres, plain, withUnit } from '../words/figures.ts';
import { dateTime } from '../words/times.ts';
import { printedUnits } from './printedUnits.ts';

/** Everything that is known of a tank's contents. */
export function TankContents({ tank, water, zone }: { readonly tank: TankView; readonly water: WaterAnswer; readonly zone: string }) {
  return (
    <div className="tank-contents">
      {tank.mmolPerL && <Composition tank={tank} components={water.components} />}
      <dl>
        <dt>How it is known</dt><dd>{asSentence(tank.basis)}</dd>
        {tank.since !== undefined && <><dt>Since {dateTime(tank.since, zone)}</dt><dd>{litres(tank.inL)} put in, {litres(tank.outL)} taken out{tank.strengthSdShare === undefined ? '' : `; concentrations known to about ${fixed(100 * tank.strengthSdShare, 0)} % (one standard deviation)`}.</dd></>}
        {tank.pH !== undefined && <><dt>pH</dt><dd>{fixed(tank.pH.value, 2)}, {tank.pH.basis}, {dateTime(tank.pH.at, zone)}.</dd></>}
        {tank.treatment && <><dt>Treated before use</dt><dd>{asSentence(printedUnits(tank.treatment.words))} The figures are of what comes out of it. UV-C burns skin and blinds: never look at a lamp that burns or open its chamber.</dd></>}
        {tank.gramsPerL && <><dt>Made from, a litre</dt><dd>{tank.gramsPerL.map(({ title, gramsPerL }) => `${title} ${withUnit(plain(gramsPerL), 'g')}`).join(', ')}.</dd></>}
        {tank.perBasinMaxL !== undefined && <><dt>Hard limit</dt><dd>At most {litres(tank.perBasinMaxL)} into one basin at one filling, whatever anybody plans.</dd></>}
      </dl>
    </div>
  );
}

function Composition({ tank, components }: { readonly tank: TankView; readonly components: readonly ComponentName[] }) {
  const rows = components.flatMap((component) => {
    const value = tank.mmolPerL?.[component.id as keyof NonNullable<TankView['mmolPerL']>];
    return value === undefined ? [] : [{ component, value, limit: tank.limits.find((is) => is.component === component.id) }];
  });
  return (
    <table className="composition">
      <caption className="only-read">What is dissolved in {tank.title}</caption>
      <thead><tr><th scope="col">Component</th><th scope="col" className="number">mmol/L</th><th scope="col" className="number">mg/L</th><th scope="col" className="limit">at most, mmol/L</th></tr></thead>
      <tbody>
        {rows.map(({ component, value, limit }) => (
          <tr key={component.id}>
            <th scope="row">{component.name} <span className="soft">as {component.element}</span></th>
            <td className="number">{plain(value)}</td>
            <td className="number">{plain(value * component.gPerMol)}</td>
            <td className="limit">{limit && <>{value > limit.mmolPerL && <Sign shape="flag" />} <span className="figures">{bare(limit.mmolPerL)}</span> <span className="soft">for {limit.crop}</span></>}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
