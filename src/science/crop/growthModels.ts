/** Every growth model by its id: a crop card names one of these. */
import type { Outcome } from '../refusal.ts';
import { refused } from '../refusal.ts';
import { createExpolinear } from './expolinear.ts';
import { EXPOLINEAR_PARAMETERS } from './expolinearParameters.ts';
import type { GrowthModel, ParameterOverrides, ParameterTable } from './growthModel.ts';
import { createReducedTomato } from './reducedTomato.ts';
import { REDUCED_TOMATO_PARAMETERS } from './reducedTomatoParameters.ts';
import { createTwoStateLettuce } from './twoStateLettuce.ts';
import { TWO_STATE_LETTUCE_PARAMETERS } from './twoStateLettuceParameters.ts';

/** A model that can be built, and the parameters a card may set. */
export interface GrowthModelEntry {
  readonly parameters: ParameterTable;
  readonly create: (overrides: ParameterOverrides) => Outcome<GrowthModel>;
}

export const GROWTH_MODELS: Readonly<Record<string, GrowthModelEntry>> = {
  'two-state-lettuce': { parameters: TWO_STATE_LETTUCE_PARAMETERS, create: createTwoStateLettuce },
  expolinear: { parameters: EXPOLINEAR_PARAMETERS, create: createExpolinear },
  'reduced-tomato': { parameters: REDUCED_TOMATO_PARAMETERS, create: createReducedTomato },
};

/** Builds the model of this id. Refuses an id that is not in the table and parameters that the model does not allow. */
export function createGrowthModel(id: string, overrides: ParameterOverrides): Outcome<GrowthModel> {
  const entry = Object.hasOwn(GROWTH_MODELS, id) ? GROWTH_MODELS[id] : undefined;
  if (entry !== undefined) return entry.create(overrides);
  return refused([{
    code: 'reference-unknown', path: 'growth.model', value: id, limit: Object.keys(GROWTH_MODELS), severity: 'error',
    message: `There is no growth model ${id}; there are ${Object.keys(GROWTH_MODELS).join(', ')}.`,
  }]);
}
