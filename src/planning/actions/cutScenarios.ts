import { addDays } from '../day/shiftDay.ts';
import { countOf, shown } from '../words/plainWords.ts';
import { notPossible, type Scenario, type ScenarioQuestion, type Scenarios } from './scenario.ts';

/** Days by which a lot that grows too heavy is held longer (own choice). */
const HELD_DAYS = 3;

/** Earlier or later harvest: only where the lot stands in its last stage within the days ahead. */
export function cutScenarios({ lot: { view, forecast }, date, days }: ScenarioQuestion): Scenarios {
  const { latestFreshG, keepsDays } = view.card.harvest;
  if (view.stageIndex + 1 < view.card.stages.length) return notPossible('Earlier or later harvest', `It stands in the stage ${view.stage.title}: there is nothing to cut yet.`);
  const ahead = forecast!.dates.filter((day) => day.date >= date).slice(0, days);
  const tooHeavy = ahead.find((day) => day.freshG.p50 > latestFreshG)?.date;
  const half = ahead.find((day) => day.readyShare >= 0.5)?.date;
  const early = half === undefined ? [] : [half < addDays(date, 1) ? addDays(date, 1) : half];
  const late = tooHeavy === undefined ? [] : [addDays(tooHeavy, HELD_DAYS)];
  const cutEarly = early.map((on): Scenario => ({
    action: 'cut-early', title: `Cut all of it on ${on}`, order: { do: 'cut', on }, plants: view.plants, cutOn: on, leftOut: [],
    doing: `The whole lot is cut on ${on}, half-ready or more, and waits cut for its orders at most ${countOf(Math.floor(keepsDays), 'day')}.`,
  }));
  const cutLate = late.map((until): Scenario => ({
    action: 'cut-late', title: `Hold it until ${until}`, order: { do: 'hold', until }, plants: view.plants, holdUntil: until,
    doing: `It is not cut for its weight before ${until}; without this its mean plant passes ${shown(latestFreshG, 0)} g on ${tooHeavy} and it is cut.`,
    leftOut: ['How much buyers mind plants that heavy is not known: no loss of price is counted.'],
  }));
  const missing = [...(half === undefined ? [{ title: 'Earlier harvest', reason: 'Less than half of its plants are expected above market weight on any day of the forecast.' }] : []), ...(tooHeavy === undefined ? [{ title: 'Later harvest', reason: 'It does not grow too heavy within its forecast: it waits for its orders anyway.' }] : [])];
  return { possible: [...cutEarly, ...cutLate], notPossible: missing };
}
