import type { CropCard } from '../../greenhouse/schema/cropCard.ts';
import { bleedToHold, plateauOf } from '../../science/crop/saltBuildUp.ts';
import type { Component } from '../../science/chemistry/composition.ts';
import { addDays } from '../day/shiftDay.ts';
import type { TankProjection } from '../morningPlan.ts';
import { shown } from '../words/plainWords.ts';
import { componentBands } from './feedLimits.ts';
import { projectSalts, type SaltCircuit } from './projectSalts.ts';
import { saltCircuit, type CircuitQuestion, type DayCircuit } from './saltCircuit.ts';

/** Weeks shown, and days looked ahead for the day on which a limit is passed. */
const SHOWN_WEEKS = 26;
const AHEAD_DAYS = 3 * 365;

const NAMES: Partial<Record<Component, string>> = { Na: 'Sodium', Cl: 'Chloride', Ca: 'Calcium', Mg: 'Magnesium', SO4: 'Sulfate', HCO3: 'Bicarbonate' };
/** Salts that crops leave behind, always shown; others where the make-up brings more than the crops take. */
const ALWAYS: readonly Component[] = ['Na', 'Cl'];
const WATCHED: readonly Component[] = ['Ca', 'Mg', 'SO4'];

export interface SaltLimit { readonly component: Component; readonly mmolPerL: number; readonly crop: string }

/** The highest concentration that the strictest crop bears. */
export function saltLimits(crops: readonly CropCard[]): SaltLimit[] {
  return [...ALWAYS, ...WATCHED].flatMap((component): SaltLimit[] => {
    const each = crops.flatMap((card): SaltLimit[] => { const band = componentBands(card)[component]; return band === undefined ? [] : [{ component, mmolPerL: band[1], crop: card.title }]; });
    const strictest = each.sort((a, b) => a.mmolPerL - b.mmolPerL)[0];
    return strictest === undefined ? [] : [strictest];
  });
}

/** Where each return tank is heading, component by component; in the order of the question's tanks. */
export function tankProjections(question: CircuitQuestion, crops: readonly CropCard[], date: string): TankProjection[][] {
  const circuit = saltCircuit(question);
  const limits = saltLimits(crops).filter(({ component }) => ALWAYS.includes(component) || accumulates(circuit.of(component)));
  return question.tanks.map(({ state }, t) => (state.mmolPerL === undefined ? [] : limits.map((limit) => projectTank(question, circuit, limit, t, date))));
}

const accumulates = ({ makeUpMmolPerL, uptakeMmolPerL }: SaltCircuit): boolean => makeUpMmolPerL > uptakeMmolPerL && makeUpMmolPerL > 0;

function projectTank({ tanks, basins }: CircuitQuestion, { of, days: recordDays }: DayCircuit, { component, mmolPerL: limit, crop }: SaltLimit, t: number, date: string): TankProjection {
  const circuit = of(component);
  const { source, state } = tanks[t]!;
  const basinsSd = basins.flatMap(({ water }) => (water.known ? [water.solution.strengthSdShare] : [])).reduce((sum, sd, _, all) => sum + sd / all.length, 0);
  const likely = projectSalts(circuit, AHEAD_DAYS).map((is) => is[t]!);
  const [low, high] = [-1, 1].map((side) => projectSalts(shiftCircuit(circuit, 1 + side * basinsSd, 1 + side * (state.strengthSdShare ?? 0)), 7 * SHOWN_WEEKS).map((is) => is[t]!)) as [number[], number[]];
  const passed = likely.findIndex((is) => is > limit);
  const bleed = bleedToHold({ ...circuit, uptakeShare: 0 }, limit);
  const bleedLPerDay = bleed === undefined ? undefined : bleed * circuit.absorbedLPerDay;
  const plateau = circuit.absorbedLPerDay > 0 && circuit.dischargedLPerDay > 0
    ? plateauOf({ ...circuit, volumeL: 1, startMmolPerL: 0, uptakeShare: 0, bleedShare: circuit.dischargedLPerDay / circuit.absorbedLPerDay }) : undefined;
  const round = (value: number) => Number(value.toPrecision(4));
  const projection: Omit<TankProjection, 'sentence'> = {
    component, limitMmolPerL: limit,
    days: Array.from({ length: SHOWN_WEEKS + 1 }, (_, week) => ({ date: addDays(date, 7 * week), mmolPerL: round(likely[7 * week]!), low: round(low[7 * week]!), high: round(high[7 * week]!) })),
    ...(passed < 0 ? {} : { dischargeBy: addDays(date, passed) }),
    ...(plateau === undefined || plateau <= 0 ? {} : { plateauMmolPerL: round(plateau) }),
    ...(passed < 0 || bleedLPerDay === undefined ? {} : { dischargeLPerDay: Number(bleedLPerDay.toFixed(1)) }),
  };
  return { ...projection, sentence: sentenceOf(projection, source.title, crop, recordDays) };
}

const shiftCircuit = (circuit: SaltCircuit, basins: number, tank: number): SaltCircuit =>
  ({ ...circuit, basinsMmolPerL: basins * circuit.basinsMmolPerL, tanks: circuit.tanks.map((is) => ({ ...is, mmolPerL: tank * is.mmolPerL })) });

function sentenceOf({ component, limitMmolPerL, days, dischargeBy, plateauMmolPerL, dischargeLPerDay }: Omit<TankProjection, 'sentence'>, title: string, crop: string, recordDays: number | undefined): string {
  const [now, last] = [days[0]!, days.at(-1)!];
  const basis = recordDays === undefined ? 'if every day were like today\'s plan' : `at the flows of the last ${Math.round(recordDays)} days`;
  const is = `${NAMES[component as Component] ?? component} in ${title} is ${shown(now.mmolPerL, 2)} mmol/L`;
  const limit = `${shown(limitMmolPerL, 2)} mmol/L (${crop})`;
  if (dischargeBy === now.date) return `${is}, above the limit of ${limit}: discharge a part of it${dischargeLPerDay === undefined ? '' : `, and about ${shown(dischargeLPerDay, 0)} L a day from then on`}.`;
  if (dischargeBy !== undefined) return `${is} and passes the limit of ${limit} on ${dischargeBy} ${basis}: from then on ${dischargeLPerDay === undefined ? 'a part' : `about ${shown(dischargeLPerDay, 0)} L a day`} must be discharged.`;
  const level = plateauMmolPerL === undefined ? '' : `; it levels off at ${shown(plateauMmolPerL, 2)}`;
  return `${is}, ${shown(last.mmolPerL, 2)} in ${SHOWN_WEEKS} weeks ${basis}${level}; the limit of ${limit} is not reached within three years.`;
}
