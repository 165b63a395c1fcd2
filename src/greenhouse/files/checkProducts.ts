import { reasonsToKeepApart } from '../../science/chemistry/incompatibilities.ts';
import type { Refusal } from '../../science/refusal.ts';
import { fertiliserOf } from '../productComposition.ts';
import { findingsIn } from './findings.ts';
import type { ReadFolder } from './greenhouseFolder.ts';

/** Whether the products are known to chemistry, and whether those that share a concentrated stock may meet. */
export function checkProducts({ products, greenhouse }: ReadFolder): Refusal[] {
  if (products === undefined) return [];
  const { found, refuse, mustDiffer } = findingsIn(products.file);
  const list = products.value.products;
  mustDiffer(list, (product) => product.id, 'product', (_, i) => products.placeOf(['products', i, 'id']));
  list.forEach((product, i) => {
    if (fertiliserOf(product) === undefined) refuse('reference-unknown', products.placeOf(['products', i, 'salt']), `Product '${product.id}' names the salt '${product.salt}', which chemistry does not know; write a formula such as KNO3, Ca(NO3)2.4H2O or a chelate such as Fe-DTPA 6 %.`, { value: product.salt });
  });
  return greenhouse === undefined ? found : [...found, ...checkMeetings(greenhouse, products)];
}

/** Concentrated products that must not meet: calcium with phosphate or sulfate above all. */
function checkMeetings(greenhouse: NonNullable<ReadFolder['greenhouse']>, products: NonNullable<ReadFolder['products']>): Refusal[] {
  const { found, refuse } = findingsIn(greenhouse.file);
  const known = new Map(products.value.products.flatMap((product) => { const fertiliser = fertiliserOf(product); return fertiliser === undefined ? [] : [[product.id, fertiliser] as const]; }));
  greenhouse.value.sources.forEach((source, i) => {
    const inside = Object.keys(source.products ?? {}).flatMap((id) => { const fertiliser = known.get(id); return fertiliser === undefined || !(source.products![id]! > 0) ? [] : [fertiliser]; });
    inside.forEach((one, a) => inside.slice(a + 1).forEach((other) => {
      for (const reason of reasonsToKeepApart(one, other)) refuse('incompatible-products', greenhouse.placeOf(['sources', i, 'products', other.id]), `${one.name} and ${other.name} must not share the concentrated stock '${source.id}': ${reason}. Keep them in tanks of their own.`, { value: `${one.id} + ${other.id}` });
    }));
  });
  return found;
}
