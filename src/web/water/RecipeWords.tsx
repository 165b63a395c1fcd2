import type { RecipeAnswer } from '../../desk/contract.ts';
import { Sign } from '../parts/Sign.tsx';
import { Why } from '../parts/Why.tsx';
import { bare, fixed, plain, withUnit } from '../words/figures.ts';
import { weighedWords } from './amounts.ts';

const TANKS = ['A', 'B', 'C', 'D'] as const;

/** A recipe in words and two tables: what goes into which tank, and what the feed comes to against its target. */
export function RecipeWords({ answer, move }: { readonly answer: RecipeAnswer; readonly move: (product: string, tank: string) => void }) {
  const { recipe } = answer;
  return (
    <section className="recipe" aria-label="Recipe">
      <h2>{recipe.title}</h2>
      <p className="sentence">{recipe.sheets.map(({ id }) => id).join(' + ')}, {withUnit(bare(answer.tankL), 'L')} each, make {withUnit(plain(recipe.feedL / 1000), 'm³')} of feed at 1 L of each in {withUnit(bare(answer.factor), 'L')}: EC {withUnit(fixed(recipe.ecMsPerCm25, 2), 'mS/cm')}{recipe.pH === undefined ? '' : `, pH ${fixed(recipe.pH, 1)} in a basin`}, products {withUnit(fixed(recipe.costPerM3, 2), answer.currency)} a cubic metre. <Why source={recipe.why} of={`the recipe for ${recipe.title}`} /></p>
      <p className="soft">Water: {recipe.waterTitle}, {recipe.waterBasis}. Target: {recipe.tableSource}. Store not colder than {bare(answer.coldestC)} °C.</p>
      {recipe.warnings.map(({ message }) => <p key={message}><Sign shape="diamond" /> <b>Watch:</b> {message}.</p>)}
      <div className="recipe-tables">
        <Products answer={answer} move={move} />
        <Components answer={answer} />
        <div><h3>How to dose</h3><ol className="dosing">{recipe.dosing.map((step) => <li key={step}>{step}</li>)}</ol></div>
      </div>
    </section>
  );
}

function Products({ answer, move }: { readonly answer: RecipeAnswer; readonly move: (product: string, tank: string) => void }) {
  const rows = answer.recipe.sheets.flatMap(({ id: tank, steps }) => steps.flatMap(({ product, title, grams }) => (product === undefined ? [] : [{ tank, product, title: title ?? product, grams: grams ?? 0 }])));
  return (
    <table>
      <caption>Products</caption>
      <thead><tr><th scope="col">product</th><th scope="col" className="number">for the tank</th><th scope="col">tank</th></tr></thead>
      <tbody>
        {rows.map(({ tank, product, title, grams }) => (
          <tr key={product}>
            <th scope="row">{title}</th>
            <td className="number">{weighedWords(grams)}</td>
            <td><select className="no-print" aria-label={`Tank of ${title}`} value={tank} onChange={(event) => move(product, event.target.value)}>{TANKS.map((id) => <option key={id} value={id}>{id}</option>)}</select><span className="only-print">{tank}</span></td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** Off by more than this share of its target is marked: the recipe warns from 2 %. */
const NOTED_SHARE = 0.02;

function Components({ answer }: { readonly answer: RecipeAnswer }) {
  const names = new Map(answer.components.map((component) => [component.id, component]));
  return (
    <table>
      <caption>The feed, mmol/L (traces µmol/L)</caption>
      <thead><tr><th scope="col">component</th><th scope="col" className="number">target</th><th scope="col" className="number">water</th><th scope="col" className="number">comes to</th><th scope="col" className="number">off by</th></tr></thead>
      <tbody>
        {answer.components.flatMap(({ id }) => answer.recipe.components.filter(({ component }) => component === id)).map(({ component, target, water, achieved }) => {
          const name = names.get(component)!;
          const times = name.trace ? 1000 : 1;
          const off = target === undefined || target === 0 ? undefined : achieved / target - 1;
          return (
            <tr key={component}>
              <th scope="row">{name.name}</th>
              <td className="number">{target === undefined ? 'free' : plain(target * times)}</td>
              <td className="number">{plain(water * times)}</td>
              <td className="number"><b>{plain(achieved * times)}</b></td>
              <td className="number">{off === undefined ? '' : <>{Math.abs(off) > NOTED_SHARE && <Sign shape="diamond" />} {withUnit(`${off < -0.0005 ? '−' : off > 0.0005 ? '+' : ''}${fixed(Math.abs(100 * off), 1)}`, '%')}</>}</td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}
