import type { Refusal } from '../refusal.ts';
import { addCompositions, type Composition } from './composition.ts';
import { refuseSaturation, saturationIndices, type SaturationIndices } from './saturation.ts';
import { speciate } from './solutionSpeciation.ts';

/** A warm day in the store: calcium phosphates dissolve less in the warmth, sulfates about the same. */
const WARM_STORE_C = 30;

/**
 * What would come out of a concentrated tank, from its salts and the water it is made with, at the coldest temperature of the store and
 * at 30 C. Stock solutions lie outside the activity models, so the limits keep a margin of 0.3. Warned where nothing can be computed.
 */
export function refuseStockSaturation(stockMmolPerL: Composition, waterMmolPerL: Composition, coldestC: number, path: string): Refusal[] {
  const solution = addCompositions(stockMmolPerL, waterMmolPerL);
  const states = [coldestC, WARM_STORE_C].map((temperatureC) => speciate(solution, { temperatureC, carbon: { by: 'total', mmolPerL: 0 } }));
  const indices = states.flatMap((state) => (state.ok ? [saturationIndices(state.value)] : []));
  if (indices.length < states.length) {
    return [{ code: 'not-converged', path, severity: 'warning', message: 'too concentrated for the models: whether anything comes out of solution cannot be computed; make a trial in a jar' }];
  }
  return refuseSaturation(indices.reduce(highest), 'stock', path);
}

const highest = (a: SaturationIndices, b: SaturationIndices): SaturationIndices =>
  ({ brushite: larger(a.brushite, b.brushite), gypsum: larger(a.gypsum, b.gypsum), struvite: larger(a.struvite, b.struvite) });

const larger = (a: number | undefined, b: number | undefined): number | undefined => (a === undefined || (b !== undefined && b > a) ? b : a);
