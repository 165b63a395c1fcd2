import { accepted, refused, type Outcome, type Refusal } from '../refusal.ts';
import { bisect } from './bisect.ts';
import { addCompositions, scaleComposition, type Composition } from './composition.ts';
import { refuseComposition } from './compositionChecks.ts';
import { componentsMolPerKg, type FertiliserProduct } from './fertiliserProducts.ts';
import { AIR_LOG10_PCO2_ATM, speciate, waterKgPerL, type SpeciationConditions } from './solutionSpeciation.ts';
import { refuseTemperature } from './validity.ts';

/** Whether carbon dioxide can leave: 'closed' right at the injection, or open to air of a partial pressure after aeration. */
export type Aeration = 'closed' | { readonly log10PCO2Atm: number };

export interface AcidRequest {
  readonly waterMmolPerL: Composition;
  readonly temperatureC: number;
  /** Inorganic carbon in the water, mmol/L; see `inorganicCarbonMmolPerL`. Not used where the water is open to air. */
  readonly inorganicCarbonMmolPerL: number;
  readonly targetPH: number;
  readonly acid: FertiliserProduct;
  readonly aeration: Aeration;
}

export interface AcidDose {
  /** Grams of the acid as bought per litre of water. */
  readonly gramsPerL: number;
  /** Millilitres of it per litre of water, where its density is known. */
  readonly mlPerL?: number;
  /** Equivalents that the acid takes from the alkalinity, meq/L: nitric and phosphoric (to H2PO4-) 1, sulfuric 2 per mole. */
  readonly meqPerL: number;
  readonly achievedMmolPerL: Composition;
  readonly pH: number;
  /** pH that the dosed water drifts to when it comes into equilibrium with outdoor air. */
  readonly pHAfterAeration: number;
}

/**
 * Acid that brings a water to a pH. Dosing to 5.8 right at the mixer leaves bicarbonate that lets the pH drift to about 8 once carbon
 * dioxide has escaped: dose on alkalinity, or for the open state, and look at `pHAfterAeration`.
 * Refused: a product that is no acid, a water that is already at or below the pH, malformed input.
 */
export function acidDose(request: AcidRequest): Outcome<AcidDose> {
  const faults = refuseRequest(request);
  if (faults.length > 0) return refused(faults);
  const perGram = componentsMolPerKg(request.acid);
  const meqPerGram = -perGram.HCO3!;
  const pHWith = (gramsPerL: number): Outcome<number> => dosedPH(request, gramsPerL, conditionsOf(request));
  const undosed = pHWith(0);
  if (!undosed.ok) return undosed;
  if (undosed.value <= request.targetPH) return refused([outOfRange('targetPH', request.targetPH, undosed.value, 'the water is already at or below this pH without acid')]);
  const found = searchDose(pHWith, request.targetPH, 1 / meqPerGram);
  if (!found.ok) return found;
  const after = dosedPH(request, found.value, { temperatureC: request.temperatureC, carbon: { by: 'air', log10PCO2Atm: AIR_LOG10_PCO2_ATM } });
  if (!after.ok) return after;
  return accepted({
    gramsPerL: found.value, meqPerL: found.value * meqPerGram, pH: request.targetPH, pHAfterAeration: after.value,
    achievedMmolPerL: dosed(request, found.value),
    ...(request.acid.densityKgPerL !== undefined && { mlPerL: found.value / request.acid.densityKgPerL }),
  });
}

const LOWEST_TARGET_PH = 3, HIGHEST_TARGET_PH = 9;

const outOfRange = (path: string, value: number, limit: number, message: string): Refusal =>
  ({ code: 'value-out-of-range', path, value, limit, message, severity: 'error' });

function refuseRequest({ waterMmolPerL, temperatureC, inorganicCarbonMmolPerL, targetPH, acid }: AcidRequest): Refusal[] {
  const noAcid: Refusal[] = (componentsMolPerKg(acid).HCO3 ?? 0) < 0 ? []
    : [{ code: 'value-not-allowed', path: 'acid', value: acid.id, message: `${acid.name} is no acid`, severity: 'error' }];
  return [
    ...refuseComposition(waterMmolPerL, 'waterMmolPerL'), ...refuseTemperature(temperatureC, 'temperatureC'), ...noAcid,
    ...(inorganicCarbonMmolPerL >= 0 ? [] : [outOfRange('inorganicCarbonMmolPerL', inorganicCarbonMmolPerL, 0, 'the inorganic carbon must be a number of at least 0')]),
    ...(targetPH >= LOWEST_TARGET_PH && targetPH <= HIGHEST_TARGET_PH ? [] : [outOfRange('targetPH', targetPH, LOWEST_TARGET_PH, `a target between pH ${LOWEST_TARGET_PH} and ${HIGHEST_TARGET_PH} is expected`)]),
  ];
}

const dosed = ({ waterMmolPerL, acid }: AcidRequest, gramsPerL: number): Composition =>
  addCompositions(waterMmolPerL, scaleComposition(componentsMolPerKg(acid), gramsPerL));

function conditionsOf({ temperatureC, aeration, inorganicCarbonMmolPerL }: AcidRequest): SpeciationConditions {
  if (aeration === 'closed') return { temperatureC, carbon: { by: 'total', mmolPerL: inorganicCarbonMmolPerL } };
  return { temperatureC, carbon: { by: 'air', ...aeration } };
}

function dosedPH(request: AcidRequest, gramsPerL: number, conditions: SpeciationConditions): Outcome<number> {
  const speciated = speciate(dosed(request, gramsPerL), conditions);
  return speciated.ok ? accepted(speciated.value.pH) : speciated;
}

/** pH falls with every drop of acid: the dose is doubled until it is enough, then found by halving. `unit` is the dose of 1 meq/L. */
function searchDose(pHWith: (gramsPerL: number) => Outcome<number>, targetPH: number, unit: number): Outcome<number> {
  const refusals: Refusal[] = [];
  const isTooLittle = (gramsPerL: number): boolean => {
    const pH = pHWith(gramsPerL);
    if (!pH.ok) refusals.push(...pH.refusals);
    return pH.ok && pH.value > targetPH;
  };
  let enough = unit;
  while (isTooLittle(enough)) enough *= 2;
  const found = bisect(0, enough, isTooLittle);
  return refusals.length > 0 ? refused(refusals) : accepted(found);
}

/** Inorganic carbon of a water from its alkalinity (HCO3) and measured pH, mmol/L. Refused where pH and alkalinity contradict each other. */
export function inorganicCarbonMmolPerL(composition: Composition, pH: number, temperatureC: number): Outcome<number> {
  const speciated = speciate(composition, { temperatureC, pH, carbon: { by: 'alkalinity' } });
  if (!speciated.ok) return speciated;
  return accepted(1000 * waterKgPerL(composition, temperatureC) * speciated.value.inorganicCarbonMolPerKg);
}
