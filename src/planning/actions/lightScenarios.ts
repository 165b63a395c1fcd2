import type { ActionId } from '../../greenhouse/actionEvents.ts';
import { drivingKWh } from '../../records/sumDay.ts';
import { addDays } from '../day/shiftDay.ts';
import { countOf, shown } from '../words/plainWords.ts';
import { asInBay, lampKWhByDay, meanDli, withLamps } from './laterClimate.ts';
import { notPossible, ownBay, possible, type Scenario, type ScenarioQuestion, type Scenarios } from './scenario.ts';

/** Longest time that lamps may burn in a day where a decision lengthens it; light added for a first step (both own choice). */
const LONGEST_H = 20;
const STEP_MOL = 2;
/** A bay is brighter when its light differs by so much (own choice). */
const BRIGHTER_SHARE = 1.02;
/** Way of a basin from one bay to the other, there full and back empty, and its weight, where nobody plans it yet (own choice). */
const WAY_M = 100;
const CARRIED_KG = 450;
const LAMPS_LIGHT_ALL = 'The lamps light every lot of the bay: what all of the light costs is counted here, what other lots gain is not; for all lots off target of the bay together see the crop page.';
const MOVE = 'Move to the brighter bay';

/** More light from the lamps of its bay, in one step and up to the upper limit of the crop card. */
export function lightScenarios(question: ScenarioQuestion): Scenarios {
  const { climates, lot: { view } } = question;
  const { bay } = climates.byBay[ownBay(view)]!;
  if (bay.lamps === undefined) return notPossible('More light', `${bay.title} has no lamps.`);
  const most = view.card.climate.dliMolM2[1];
  const now = bay.lamps.targetDliMolM2;
  if (most - now < 0.25) return notPossible('More light', `The lamps of ${bay.title} fill up to ${shown(now, 1)} mol/(m2 d) already; the crop card allows ${shown(most, 1)}.`);
  const targets = [...new Set([Math.min(now + STEP_MOL, most), most])];
  return possible(...targets.map((target, i) => lightScenario(question, i === 0 ? 'more-light' : 'most-light', target)));
}

function lightScenario({ climates, lit, lot: { view }, date, days }: ScenarioQuestion, action: ActionId, targetDliMolM2: number): Scenario {
  const { bay } = climates.byBay[ownBay(view)]!;
  const lamps = bay.lamps!;
  const hoursPerDayMax = Math.max(lamps.hoursPerDayMax, LONGEST_H);
  const from = addDays(date, 1);
  const key = `${bay.id} ${targetDliMolM2}`;
  const brighter = lit.get(key) ?? withLamps(climates, { ...bay, lamps: { ...lamps, targetDliMolM2, hoursPerDayMax } }, from);
  lit.set(key, brighter);
  const dark = lampKWhByDay(climates, bay.id, from, days);
  const light = [meanDli(climates, bay.id, from, days), meanDli(brighter, bay.id, from, days)].map((mol) => shown(mol, 1));
  return {
    action, title: action === 'more-light' ? 'More light' : 'Light up to the crop\u2019s limit', order: { do: 'light', bay: bay.id, targetDliMolM2, hoursPerDayMax }, plants: view.plants,
    doing: `Lamps of ${bay.title} fill up to ${shown(targetDliMolM2, 1)} instead of ${shown(lamps.targetDliMolM2, 1)} mol/(m2 d), at most ${hoursPerDayMax} h a day, from tomorrow until the lot is gone: ${light[1]} instead of ${light[0]} mol/(m2 d) on average.`,
    leftOut: [LAMPS_LIGHT_ALL, 'The warmth of the lamps is not counted, nor the heating that it saves.'],
    growth: { climates: brighter, view }, kWhByDay: lampKWhByDay(brighter, bay.id, from, days).map((kWh, i) => kWh - dark[i]!),
  };
}


/** A bay of the same kind with more light and free berths. */
export function moveScenario({ state, file, climates, lot: { view }, date, days }: ScenarioQuestion): Scenarios {
  const own = ownBay(view);
  const from = addDays(date, 1);
  const { bay } = climates.byBay[own]!;
  const light = (id: string) => meanDli(climates, id, from, days);
  const others = Object.values(climates.byBay).filter((other) => other.bay.kind === bay.kind && other.bay.id !== own && light(other.bay.id) > BRIGHTER_SHARE * light(own));
  const best = others.sort((a, b) => light(b.bay.id) - light(a.bay.id))[0];
  if (best === undefined) return notPossible(MOVE, `No ${bay.kind} bay is brighter than ${bay.title} (${shown(light(own), 1)} mol/(m2 d) over the days ahead).`);
  const taken = new Set(Object.values(state.basins).map(({ berth }) => berth));
  const free = (state.floor?.berths ?? []).filter(({ id, bay: of }) => of === best.bay.id && !taken.has(id)).length;
  const here = view.basins.filter(({ bay: of }) => of === own);
  if (free < here.length) return notPossible(MOVE, `${best.bay.title} is brighter (${shown(light(best.bay.id), 1)} against ${shown(light(own), 1)} mol/(m2 d)) but has ${countOf(free, 'free berth')} for ${countOf(here.length, 'basin')}.`);
  const station = file.stations.find(({ kind }) => kind === 'imaging');
  return possible({
    action: 'brighter-bay', title: `Move to ${best.bay.title}`, order: { do: 'move', bay: best.bay.id }, plants: view.plants,
    doing: `${countOf(here.length, 'basin')} go to free berths of ${best.bay.title}, past the imaging station: ${shown(light(best.bay.id), 1)} instead of ${shown(light(own), 1)} mol/(m2 d).`,
    leftOut: ['Vehicle time is not counted.'], growth: { climates: asInBay(climates, own, best.bay.id, from), view },
    workH: (here.length * (station?.service.fixedS ?? 0) * (station?.crew ?? 1)) / 3600, kWhNow: drivingKWh(WAY_M * here.length, WAY_M * here.length, CARRIED_KG),
  });
}
