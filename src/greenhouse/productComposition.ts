import type { ProductDescription } from './schema/productsFile.ts';
import { scaleComposition, addCompositions, type Composition } from '../science/chemistry/composition.ts';
import { componentsMolPerKg, type FertiliserProduct } from '../science/chemistry/fertiliserProducts.ts';
import { SUBSTANCES, type SubstanceId } from '../science/chemistry/substances.ts';

/** Chelates are named by their agent and the iron of the label: "Fe-DTPA 6 %". */
const CHELATES: Readonly<Record<string, SubstanceId>> = { edta: 'iron-edta', dtpa: 'iron-dtpa', eddha: 'iron-eddha' };
const CHELATE = /^Fe-?(EDTA|DTPA|EDDHA)(?:\s+([\d.]+)\s*%)?$/i;

const plain = (formula: string): string => formula.replaceAll(/[·*•]/g, '.').replaceAll(/\s/g, '');
const BY_FORMULA = new Map(
  (Object.keys(SUBSTANCES) as SubstanceId[]).filter((id) => SUBSTANCES[id].kind !== 'chelate').map((id) => [plain(SUBSTANCES[id].formula), id]),
);

/**
 * A product of fertilisers.yaml as chemistry knows it; absent where its salt is unknown there. `salt` may be a formula
 * (KNO3, Ca(NO3)2.4H2O), a chelate (Fe-EDTA, Fe-DTPA, Fe-EDDHA, with its iron as in "Fe-DTPA 6 %"; without, the purity is
 * its iron) or the name of a substance.
 */
export function fertiliserOf(product: ProductDescription): FertiliserProduct | undefined {
  const [, agent, iron] = CHELATE.exec(product.salt.trim()) ?? [];
  const share = (product.purityPct / 100) * (iron === undefined ? 1 : Number(iron) / 100);
  const substance = (agent === undefined ? undefined : CHELATES[agent.toLowerCase()]) ?? BY_FORMULA.get(plain(product.salt)) ?? (Object.hasOwn(SUBSTANCES, product.salt) ? product.salt as SubstanceId : undefined);
  if (substance === undefined) return undefined;
  const isChelate = SUBSTANCES[substance].kind === 'chelate';
  return {
    id: product.id, name: product.title, substance, form: SUBSTANCES[substance].kind === 'acid' ? 'liquid' : 'solid', pricePerKg: product.pricePerKg,
    grade: isChelate ? { by: 'element', component: 'Fe', massFraction: share } : { by: 'purity', massFraction: share },
    ...(product.densityKgPerL === undefined ? {} : { densityKgPerL: product.densityKgPerL }),
    ...(product.lotCode === undefined ? {} : { lot: product.lotCode }),
  };
}

/** Grams of products in a litre of finished stock to mmol per litre; the products that are not known are named. */
export function stockComposition(gramsPerL: Readonly<Record<string, number>>, products: Readonly<Record<string, ProductDescription>>): { mmolPerL: Composition; unknown: string[] } {
  const unknown: string[] = [];
  const parts = Object.entries(gramsPerL).flatMap(([id, grams]) => {
    const product = products[id] === undefined ? undefined : fertiliserOf(products[id]);
    if (product === undefined) { unknown.push(id); return []; }
    return [scaleComposition(componentsMolPerKg(product), grams)];
  });
  return { mmolPerL: addCompositions(...parts), unknown };
}
