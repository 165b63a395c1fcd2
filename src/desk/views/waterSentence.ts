import { Temporal } from 'temporal-polyfill';
import type { DayAccount, TankOutlook } from '../../planning/morningPlan.ts';

/** Water today in one plain sentence: what comes in, how much of it was used before, what is discharged, which tank reaches a limit next. */
export function waterSentence(basins: number, account: Pick<DayAccount, 'waterL' | 'dischargedL' | 'returnedL'>, tanks: readonly Pick<TankOutlook, 'source' | 'title' | 'kind' | 'projections'>[]): string {
  const litresOf = (kind: TankOutlook['kind']) => tanks.filter((tank) => tank.kind === kind).reduce((sum, { source }) => sum + (account.waterL[source] ?? 0), 0);
  const [freshL, reusedL] = [litresOf('fresh'), litresOf('return')];
  const discharged = account.dischargedL > 0 ? `${cubic(account.dischargedL)} are discharged` : 'nothing is discharged';
  const kept = account.returnedL > 0 ? `, ${cubic(account.returnedL)} come back into return tanks` : '';
  return `${fillingWords(basins, freshL, reusedL)}; ${discharged}${kept}. ${limitWords(tanks)}`;
}

function fillingWords(basins: number, freshL: number, reusedL: number): string {
  if (basins === 0) return 'No basin is filled today';
  const share = freshL + reusedL > 0 ? Math.round((100 * reusedL) / (freshL + reusedL)) : 0;
  return `Today ${basins === 1 ? 'one basin takes' : `${basins} basins take`} ${cubic(freshL)} of fresh water and ${cubic(reusedL)} of returned solution, ${share} % of it used again`;
}

function limitWords(tanks: readonly Pick<TankOutlook, 'title' | 'projections'>[]): string {
  const due = tanks.flatMap(({ title, projections }) => projections.flatMap(({ component, dischargeBy }) => (dischargeBy === undefined ? [] : [{ title, component, dischargeBy }])));
  const watched = tanks.some(({ projections }) => projections.length > 0);
  if (due.length === 0) return watched ? 'No return tank reaches its limit of sodium or chloride in the days looked ahead.' : 'Nothing is known of where sodium and chloride are heading.';
  const first = due.reduce((soonest, each) => (each.dischargeBy < soonest.dischargeBy ? each : soonest));
  const date = Temporal.PlainDate.from(first.dischargeBy).toLocaleString('en-GB', { day: 'numeric', month: 'long' });
  return `${first.title} reaches its limit of ${first.component === 'Na' ? 'sodium' : first.component === 'Cl' ? 'chloride' : first.component} on ${date} unless a part is discharged by then.`;
}

/** Litres below a cubic metre, cubic metres above. */
const cubic = (litres: number): string => (litres < 999.5 ? `${Math.round(litres)} L` : `${(litres / 1000).toFixed(litres < 99_950 ? 2 : 1)} m³`);
