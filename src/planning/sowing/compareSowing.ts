import { countOf } from '../words/plainWords.ts';
import type { Sowing, SowingPlan } from './sowingPlan.ts';

/** How one sowing plan differs from another. */
export interface SowingChanges {
  readonly sentences: readonly string[];
  /** Money over the horizon, after less before; shortage counted. */
  readonly cost: number;
}

const LISTED = 8;

/** What changes from one plan to the other, in words: sowings first, then what stays short, then money. */
export function compareSowing(before: SowingPlan, after: SowingPlan): SowingChanges {
  const keyOf = ({ sowDate, crop }: Sowing) => `${sowDate}/${crop}`;
  const [old, now] = [groupBy(before.sowings, keyOf), groupBy(after.sowings, keyOf)];
  const changes = [...new Set([...old.keys(), ...now.keys()])].sort().flatMap((key) => sentenceOf(old.get(key) ?? [], now.get(key) ?? []) ?? []);
  const listed = changes.length <= LISTED ? changes : [...changes.slice(0, LISTED), `${changes.length - LISTED} more sowings change.`];
  const cost = after.proof.cost - before.proof.cost;
  const money = `Over the horizon this costs ${Math.abs(cost).toFixed(2)} ${after.currency} ${cost >= 0 ? 'more' : 'less'}, shortage counted; plans are proven to ${Math.max(before.proof.gapPct, after.proof.gapPct).toFixed(1)} %, so that smaller differences say little.`;
  return { cost, sentences: [...(listed.length === 0 ? ['No sowing changes.'] : listed), ...shortSentences(before, after), money] };
}

function groupBy(sowings: readonly Sowing[], keyOf: (each: Sowing) => string): Map<string, Sowing[]> {
  const groups = new Map<string, Sowing[]>();
  for (const each of sowings) groups.set(keyOf(each), [...(groups.get(keyOf(each)) ?? []), each]);
  return groups;
}

function sentenceOf(old: readonly Sowing[], now: readonly Sowing[]): string | undefined {
  const plants = (list: readonly Sowing[]) => list.reduce((sum, each) => sum + each.plants, 0);
  const { sowDate, cropTitle } = (now[0] ?? old[0])!;
  const [was, is] = [plants(old), plants(now)];
  if (was === is) return undefined;
  if (was === 0) return `Sow ${is} plants of ${cropTitle} on ${sowDate}, which were not planned.`;
  if (is === 0) return `Do not sow ${cropTitle} on ${sowDate}; ${was} plants were planned.`;
  return `Sow ${is} instead of ${was} plants of ${cropTitle} on ${sowDate}.`;
}

function shortSentences(before: SowingPlan, after: SowingPlan): string[] {
  return after.crops.flatMap((crop) => {
    const old = before.crops.find((each) => each.crop === crop.crop);
    const short = (list: typeof crop.weeks | undefined) => (list ?? []).reduce((sum, week) => sum + week.shortUnits, 0);
    const more = short(crop.weeks) - short(old?.weeks);
    if (Math.abs(more) < 1) return [];
    return [`${countOf(Math.abs(more), crop.unit)} ${more > 0 ? 'more' : 'fewer'} of ${crop.title} cannot be covered with the chance asked for.`];
  });
}
