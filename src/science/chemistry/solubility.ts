import { molarMassGPerMol } from './molarMass.ts';
import { substanceOf, type SolubilityPoint, type Substance, type SubstanceId } from './substances.ts';

/**
 * Grams of the substance that dissolve in a litre of solution at a temperature: linear between published points, the lowest
 * point below them, the highest above them (both err to the safe side). Absent where nothing is published (acids mix freely).
 */
export function solubilityGPerL(id: SubstanceId, temperatureC: number): number | undefined {
  const substance = substanceOf(id);
  const points = (substance.solubility ?? []).map((point) => [point.temperatureC, gramsPerLitre(substance, point)] as const);
  const above = points.findIndex(([t]) => t >= temperatureC);
  if (points.length === 0) return undefined;
  if (above === 0) return points[0]![1] * lowering(points[0]![0], temperatureC);
  if (above < 0) return points.at(-1)![1];
  const [t0, s0] = points[above - 1]!, [t1, s1] = points[above]!;
  return s0 + ((s1 - s0) * (temperatureC - t0)) / (t1 - t0);
}

/** Below the coldest published point a salt loses at most some 3 % a degree (potassium nitrate, the steepest here). */
const lowering = (coldestC: number, temperatureC: number): number => Math.max(0, 1 - 0.03 * (coldestC - temperatureC));

/** A saturated solution is taken to weigh 1 kg/L; the real density is higher, so more dissolves than this says. */
function gramsPerLitre(substance: Substance, point: SolubilityPoint): number {
  if ('gPerL' in point) return point.gPerL;
  const share = molarMassGPerMol(substance.anhydrous ?? substance.formula) / molarMassGPerMol(substance.formula);
  // Grams of hydrate per 100 g of added water: its own water becomes solvent.
  const hydrate = (100 * point.anhydrousGPer100gWater) / (100 * share - point.anhydrousGPer100gWater * (1 - share));
  return (1000 * hydrate) / (100 + hydrate);
}
