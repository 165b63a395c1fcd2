import type { PlaceByWeek, Sowing, SowingPlan } from '../../planning/sowing/sowingPlan.ts';
import { printColumns } from './columns.ts';
import { wrapWords } from './wrapWords.ts';

const WIDTH = 110;
/** Orders named on a line of the sow list; the rest are counted. */
const NAMED_ORDERS = 3;

/** The sow list on paper: what to sow when, for which orders; basins and work by week; what binds and what more would be worth. */
export function sowingSheet(plan: SowingPlan): string {
  return [
    `${plan.name}: sowing from ${plan.date}, ${plan.weeks} weeks`,
    wrapWords(plan.sentence, WIDTH),
    section('To sow', [sowList(plan.sowings)]),
    section('Basins by week (mean of lots that stand + lots to be sown; * binds)', [capacityTable(plan.capacity)]),
    section('Work and light by week', [limitTable(plan)]),
    section('Not covered with the chance asked for', shortLines(plan)),
    section('What more would be worth', plan.worth.map(({ sentence }) => wrapWords(sentence, WIDTH, '  '))),
    section('Proof', [wrapWords(`Cost ${plan.proof.cost.toFixed(2)} ${plan.currency} (shortage counted); no plan costs less than ${plan.proof.bound.toFixed(2)}; gap ${plan.proof.gapPct.toFixed(2)} %. ${plan.proof.solver}, ${plan.proof.columns} columns of which ${plan.proof.wholeNumbers} whole, ${plan.proof.rows} rows.`, WIDTH, '  ')]),
    section('Assumed', plan.notes.map((note) => wrapWords(note, WIDTH, '  '))),
  ].filter((part) => part !== '').join('\n\n');
}

const section = (title: string, lines: readonly string[]): string => (lines.filter((line) => line !== '').length === 0 ? '' : `${title.toUpperCase()}\n${lines.join('\n')}`);

function sowList(sowings: readonly Sowing[]): string {
  if (sowings.length === 0) return '';
  return printColumns(
    [{ title: 'sow' }, { title: 'crop' }, { title: 'seeds', right: true }, { title: 'trays', right: true }, { title: 'plants', right: true }, { title: 'basins' }, { title: 'harvest' }, { title: 'expected', right: true }, { title: 'sure', right: true }, { title: 'for' }],
    sowings.map((each) => [
      each.sowDate, each.cropTitle, String(each.seeds), String(each.trays), String(each.plants), each.basins.map(({ stage, basins }) => `${basins} ${stage.toLowerCase()}`).join(', '),
      `${each.harvestFrom} to ${each.harvestTo.slice(5)}`, String(each.meanUnits), String(each.sureUnits), forWhom(each),
    ]), '  ');
}

function forWhom({ orders, forExpectedUnits }: Sowing): string {
  const named = [...new Set(orders.map(({ order, line }) => `${order}/${line}`))];
  const shown = named.slice(0, NAMED_ORDERS).join(', ') + (named.length > NAMED_ORDERS ? ` and ${named.length - NAMED_ORDERS} more` : '');
  const expected = forExpectedUnits > 0 ? `${forExpectedUnits} for orders to come` : '';
  return [shown, expected].filter((part) => part !== '').join('; ') || 'spare';
}

function capacityTable(places: readonly PlaceByWeek[]): string {
  const weeks = places[0]?.weeks ?? [];
  return printColumns(
    [{ title: 'week from' }, ...places.map(({ title, usableBasins }) => ({ title: `${title} (${usableBasins})`, right: true }))],
    weeks.map(({ from }, i) => [from, ...places.map((place) => { const week = place.weeks[i]!; return `${week.standing.toFixed(0)} + ${week.sown.toFixed(0)}${week.binds ? ' *' : '  '}`; })]), '  ');
}

function limitTable({ limits }: SowingPlan): string {
  const weeks = limits[0]?.weeks ?? [];
  if (weeks.length === 0) return '';
  return printColumns(
    [{ title: 'week from' }, ...limits.map(({ title, unit }) => ({ title: `${title}, ${unit}`, right: true }))],
    weeks.map(({ from }, i) => [from, ...limits.map((limit) => { const week = limit.weeks[i]; return week === undefined ? '' : `${week.used.toFixed(1)} of ${week.limit.toFixed(0)}${week.binds ? ' *' : '  '}`; })]), '  ');
}

function shortLines({ crops }: SowingPlan): string[] {
  return crops.flatMap(({ title, unit, weeks }) => {
    const short = weeks.filter(({ shortUnits }) => shortUnits > 0);
    return short.length === 0 ? [] : [wrapWords(`${title} (${unit}): ${short.map(({ from, shortUnits, orderedUnits, expectedUnits }) => `${from} ${shortUnits} of ${orderedUnits + expectedUnits}`).join(', ')}`, WIDTH, '  ')];
  });
}
