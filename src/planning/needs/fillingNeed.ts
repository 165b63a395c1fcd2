import { addDays, localDate, type ShiftDay } from '../day/shiftDay.ts';
import { shown } from '../words/plainWords.ts';
import { basinFullL, basinLeastL } from '../../greenhouse/basinGeometry.ts';
import { componentBands, targetComposition } from '../water/feedLimits.ts';
import type { KnownSolution } from '../water/solutionEstimate.ts';
import { expectedLossL, type BasinView } from './basinView.ts';
import type { NeedDraft, Urgency } from './needDraft.ts';

/** Days ahead for which the level is looked at. */
const LOOK_AHEAD_DAYS = 21;
/** A level that reaches its minimum so soon is refilled while there is time (common practice, no source). */
const SHOULD_DAYS = 3;
/** Distance from a band, as a share of its edge, beyond which today is the day (common practice, no source). */
const FAR_SHARE = 0.1;
const FAR_PH = 0.5;
const DAY_MS = 86_400_000;

/** First local date at whose end the basin holds less than it may; absent when not within three weeks. */
export function lowLevelDate(view: BasinView, day: ShiftDay): string | undefined {
  if (!view.water.known || view.card === undefined) return undefined;
  const least = basinLeastL(view.basin.type);
  const { volumeL } = view.water.solution;
  for (let ahead = 0; ahead <= LOOK_AHEAD_DAYS; ahead++) {
    if (volumeL - expectedLossL(view, day.atMs, day.endMs + ahead * DAY_MS) < least) return localDate(day.endMs + ahead * DAY_MS, day.timeZone);
  }
  return undefined;
}

/** What is outside its band now, in words, worst first. */
export function outOfBand(view: BasinView): { words: string; urgency: Urgency }[] {
  if (!view.water.known || view.card === undefined) return [];
  const { solution } = view.water;
  const { water } = view.card;
  const found = [
    ...outside('conductivity', solution.ecMsPerCm25, water.ecMsPerCm25, 'mS/cm', (distance) => (distance > FAR_SHARE * water.ecMsPerCm25[1] ? 'must' : 'should')),
    ...(solution.pH === undefined ? [] : outside('pH', solution.pH, water.pH, '', (distance) => (distance > FAR_PH ? 'must' : 'should'))),
    ...componentsOutside(view, solution),
  ];
  return found.sort((a, b) => rank(a.urgency) - rank(b.urgency));
}

const rank = (urgency: Urgency): number => ['must', 'should', 'may'].indexOf(urgency);

/** Components count only as far as the balance is sure of them. */
function componentsOutside(view: BasinView, solution: KnownSolution): { words: string; urgency: Urgency }[] {
  return Object.entries(componentBands(view.card!)).flatMap(([name, [low, high]]) => {
    const value = solution.mmolPerL[name as keyof typeof solution.mmolPerL] ?? 0;
    const doubt = solution.strengthSdShare * Math.max(value, low);
    return outside(name, value, [low - doubt, high + doubt], 'mmol/L', (distance) => (distance > 0.5 * high ? 'should' : 'may'));
  });
}

function outside(name: string, value: number, [low, high]: readonly [number, number], unit: string, urgencyAt: (distance: number) => Urgency): { words: string; urgency: Urgency }[] {
  const distance = Math.max(low - value, value - high);
  if (!(distance > 1e-9)) return [];
  const inUnit = unit === 'mmol/L' && high < 0.1 ? { factor: 1000, unit: 'umol/L' } : { factor: 1, unit };
  const decimals = high * inUnit.factor < 1 ? 3 : 2;
  const say = (is: number) => shown(is * inUnit.factor, decimals);
  const limit = value < low ? `below ${say(low)}` : `above ${say(high)}`;
  return [{ words: `${name} ${say(value)}${inUnit.unit === '' ? '' : ` ${inUnit.unit}`} is ${limit}`, urgency: urgencyAt(distance) }];
}

/** Filling for a basin in which plants stand: the level, or something out of its band. */
export function fillingNeed(view: BasinView, day: ShiftDay): NeedDraft | undefined {
  if (view.card === undefined || !view.water.known) return undefined;
  const low = lowLevelDate(view, day);
  const { solution } = view.water;
  const least = basinLeastL(view.basin.type);
  const level: { words: string; urgency: Urgency }[] = low === undefined || low > addDays(day.date, SHOULD_DAYS) ? [] : [{
    words: solution.volumeL < least
      ? `${shown(solution.volumeL, 0)} L is below the least of ${shown(least, 0)} L (full ${shown(basinFullL(view.basin.type), 0)} L)`
      : `${shown(solution.volumeL, 0)} L falls below the least of ${shown(least, 0)} L on ${low}`,
    urgency: low <= addDays(day.date, 1) ? 'must' : 'should',
  }];
  const target: Readonly<Record<string, number | undefined>> = targetComposition(view.card);
  const missed = solution.exhausted.filter((name) => (target[name] ?? 0) > 0);
  const exhausted = missed.length === 0 ? [] : [{ words: `${missed.join(', ')} used up by the balance`, urgency: 'should' as const }];
  const reasons = [...level, ...outOfBand(view), ...exhausted].sort((a, b) => rank(a.urgency) - rank(b.urgency));
  if (reasons.length === 0) return undefined;
  const urgency = reasons[0]!.urgency;
  return {
    basin: view.basin.id, kind: 'filling', urgency, why: 'water-balance',
    reason: reasons.slice(0, 3).map(({ words }) => words).join('; '),
    dueDate: urgency === 'must' ? day.date : low ?? addDays(day.date, SHOULD_DAYS),
  };
}
