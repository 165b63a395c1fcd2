import { GROWTH_MODELS } from '../../science/crop/growthModels.ts';
import type { Refusal } from '../../science/refusal.ts';
import { findingsIn } from './findings.ts';
import type { ReadFolder } from './greenhouseFolder.ts';
import type { Place } from './place.ts';

/** Whether crop cards hang together: identities, stages that follow the bays, a growth model that exists with parameters in range. */
export function checkCrops({ crops, greenhouse }: ReadFolder): Refusal[] {
  const seen = new Set<string>();
  const kinds = new Set(greenhouse?.value.bays.map((bay) => bay.kind));
  return crops.flatMap(({ value, file, placeOf }) => {
    const findings = findingsIn(file);
    const { found, refuse, mustDiffer, mustBeKnown } = findings;
    if (seen.has(value.id)) refuse('duplicate', placeOf(['id']), `Another crop card has the id '${value.id}' already.`, { value: value.id });
    seen.add(value.id);
    mustDiffer(value.stages, (stage) => stage.id, 'stage', (_, i) => placeOf(['stages', i, 'id']));
    value.stages.forEach((stage, i) => {
      if (greenhouse !== undefined && !kinds.has(stage.bay)) refuse('reference-unknown', placeOf(['stages', i, 'bay']), `Stage '${stage.id}' wants a ${stage.bay} bay and the greenhouse has none.`, { value: stage.bay });
      const before = value.stages[i - 1];
      if (before !== undefined && stage.plantsPerM2 > before.plantsPerM2) refuse('inconsistent', placeOf(['stages', i, 'plantsPerM2']), `Stage '${stage.id}' is denser than '${before.id}' before it; plants are only spaced out.`, { value: stage.plantsPerM2, limit: before.plantsPerM2, unit: '/m2' });
    });
    if (value.harvest.latestFreshG <= value.harvest.readyFreshG) refuse('inconsistent', placeOf(['harvest', 'latestFreshG']), 'latestFreshG is not above readyFreshG.', { value: value.harvest.latestFreshG, limit: value.harvest.readyFreshG, unit: 'g' });
    mustBeKnown(value.growth.model, Object.keys(GROWTH_MODELS), 'growth model', placeOf(['growth', 'model']));
    checkParameters(value.growth.model, value.growth.parameters, (symbol) => placeOf(['growth', 'parameters', symbol]), findings);
    return found;
  });
}

type Findings = ReturnType<typeof findingsIn>;

function checkParameters(model: string, parameters: Readonly<Record<string, { readonly value: number }>>, placeOf: (symbol: string) => Place | undefined, { refuse, mustBeKnown }: Findings): void {
  const table = GROWTH_MODELS[model]?.parameters;
  if (table === undefined) return;
  for (const [symbol, { value }] of Object.entries(parameters)) {
    const known = table.find((each) => each.symbol === symbol);
    if (known === undefined) mustBeKnown(symbol, table.map((each) => each.symbol), `parameter of ${model}`, placeOf(symbol));
    else if (value < known.min || value > known.max) refuse('value-out-of-range', placeOf(symbol), `${symbol} (${known.name}) is ${value}; the model allows ${known.min} to ${known.max} ${known.unit}.`, { value, limit: `${known.min} to ${known.max}`, unit: known.unit });
  }
}
