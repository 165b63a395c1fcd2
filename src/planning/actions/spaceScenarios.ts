import { basinAreaM2 } from '../../greenhouse/basinGeometry.ts';
import type { DensityStep } from '../../science/crop/lotForecast.ts';
import { addDays, daysBetween } from '../day/shiftDay.ts';
import { countOf, shown } from '../words/plainWords.ts';
import { notPossible, possible, type ScenarioQuestion, type Scenarios } from './scenario.ts';

const THINNED_SHARE = 0.25;
const APART = 'Move apart earlier';

/** More room: in the last stage plants are taken out, before it they move on to the next density sooner. */
export const spaceScenarios = (question: ScenarioQuestion): Scenarios =>
  (question.lot.view.stageIndex + 1 < question.lot.view.card.stages.length ? moveApart(question) : thin(question));

/** Every fourth plant of the last stage is taken out: the others have its light. */
function thin({ file, climates, lot: { view, forecast }, date }: ScenarioQuestion): Scenarios {
  const share = forecast!.dates.find((day) => day.date === date)?.readyShare ?? 0;
  if (share >= view.card.harvest.readyShare) return notPossible('Thinning', 'It is ready: there is nothing to gain from more room.');
  const plantsOut = Math.round(view.plants * THINNED_SHARE);
  const now = view.densities.at(-1)!.plantsPerM2;
  const densities: DensityStep[] = [...view.densities, { date: addDays(date, 1), plantsPerM2: now * (1 - THINNED_SHARE) }];
  return possible({
    action: 'thin', title: 'Thin by a quarter', order: { do: 'thin', plants: plantsOut }, plants: view.plants - plantsOut, plantsOut, workH: plantsOut * secondsAPlant(file) / 3600,
    doing: `Every fourth plant, ${plantsOut} in all, is taken out tomorrow; the others stand at ${shown(now * (1 - THINNED_SHARE), 0)} instead of ${shown(now, 0)} per m2.`,
    leftOut: ['Plants taken out are thrown away, large and small alike; picking the smallest would do better than this.'], growth: { climates, view: { ...view, densities } },
  });
}

/** The next stage begins tomorrow, where basins are free; later stages begin as much sooner. */
function moveApart({ state, climates, lot: { view }, date }: ScenarioQuestion): Scenarios {
  const next = view.card.stages[view.stageIndex + 1]!;
  const tomorrow = addDays(date, 1);
  const sooner = daysBetween(tomorrow, view.densities[view.stageIndex + 1]!.date);
  if (sooner <= 0) return notPossible(APART, `It moves on to the stage ${next.title} by tomorrow anyway.`);
  const kindOf = (bay: string) => climates.byBay[bay]?.bay.kind;
  const free = Object.values(state.basins).filter(({ bay, planting, needsWash }) => planting === undefined && !needsWash && kindOf(bay) === next.bay);
  const places = free.map(({ type }) => Math.max(1, Math.round(next.plantsPerM2 * basinAreaM2(type))));
  let room = 0;
  const needed = places.findIndex((each) => (room += each) >= view.plants) + 1;
  if (needed === 0) return notPossible(APART, `Its ${view.plants} plants need more basins of a ${next.bay} bay than the ${free.length} that are empty and clean.`);
  const densities = view.densities.map((step, i) => (i <= view.stageIndex ? step : { ...step, date: addDays(step.date, -sooner) }));
  return possible({
    action: 'move-apart', title: APART, order: { do: 'move-apart' }, plants: view.plants, leftOut: [],
    doing: `Its plants move on to the stage ${next.title} (${shown(next.plantsPerM2, 0)} per m2, ${countOf(needed, 'basin')}) tomorrow, ${countOf(sooner, 'day')} sooner than planned.`,
    growth: { climates, view: { ...view, densities } }, moreBasinDays: Math.max(0, needed - view.basins.length) * sooner,
  });
}

const secondsAPlant = (file: ScenarioQuestion['file']): number => file.stations.find(({ kind }) => kind === 'transplanting')?.service.perPlantS ?? 0;
