import type { WeekView } from '../../src/desk/contract.ts';

/** A week in which vehicles overrun on its fifth day and one visit moves to the sixth. */
export function overfull(week: WeekView): WeekView {
  const [over, to] = [week.dates[4]!, week.dates[5]!];
  const at = (values: readonly number[], day: number, value: number) => values.map((old, i) => (i === day ? value : old));
  const moving = week.visits.findIndex(({ date }) => date === over);
  return {
    ...week, visits: week.visits.map((visit, i) => (i === moving ? { ...visit, to } : visit)),
    resources: week.resources.map((row) => (row.id === 'vehicles' ? { ...row, loadMin: at(row.loadMin, 4, row.capacityMin[4]! + 90), levelledMin: at(at(row.levelledMin, 4, row.capacityMin[4]!), 5, row.loadMin[5]! + 90) } : row)),
    overruns: [{ date: over, resource: 'vehicles', loadMin: 0, capacityMin: 0, staysOverMin: 0, sentence: 'invented: vehicles overrun' }],
  };
}
