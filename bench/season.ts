/**
 * The season test: the sowing plan, made anew every week, beside a rule that sows the same every week, on the same seeds
 * (weather, growth, germination, losses, orders). The lots grow by the demo's own law, not by the planner's models; their spreads
 * are not the planner's. The rule is told the season's average orders, which the plan is not.
 * Run: npx tsx bench/season.ts [seeds, 30] [even | swing | known] [first seed, 1]
 */
import { pathToFileURL } from 'node:url';
import { loadLinearSolver } from '../src/planning/solver/loadLinearSolver.ts';
import { seasonHouse } from '../src/twin/season/seasonHouse.ts';
import type { SeasonCount } from '../src/twin/season/seasonFloor.ts';
import { simulateSeason, type SeasonRun } from '../src/twin/season/simulateSeason.ts';
import { demoFolder } from '../test/planning/demoFolder.ts';

const START = '2025-11-24';
const PLANNER = { weeksAhead: 4, daysAfter: 80, relativeGap: 0.003, maxNodes: 60 };
const POLICIES: readonly SeasonRun['policy'][] = [{ kind: 'plan', settings: PLANNER }, { kind: 'calendar', margin: 1 }, { kind: 'calendar', margin: 1.15 }, { kind: 'calendar', margin: 1.22 }, { kind: 'calendar', margin: 1.3 }];
const ORDERS = {
  even: { swing: 0, knownDays: 28, words: 'even orders, known 28 days ahead' },
  swing: { swing: 0.35, knownDays: 28, words: 'orders that swing by 35 %, known 28 days ahead' },
  known: { swing: 0.35, knownDays: 70, words: 'orders that swing by 35 %, known 70 days ahead' },
} as const;

async function report(seeds: number, wanted: string | undefined, firstSeed: number): Promise<void> {
  const solver = await loadLinearSolver();
  const house = seasonHouse(demoFolder().state, START, '2027-02-20');
  for (const [name, { words, ...orders }] of Object.entries(ORDERS)) {
    if (wanted !== undefined && wanted !== name) continue;
    console.log(`${words}:`);
    for (const policy of POLICIES) {
      const begun = performance.now();
      const counts = Array.from({ length: seeds }, (_, i) => simulateSeason(house, { seed: firstSeed + i, startDate: START, warmUpWeeks: 16, weeks: 26, level: 0.7, ...orders, policy }, solver));
      console.log(`  ${policy.kind === 'plan' ? 'sowing plan' : `same every week x ${policy.margin}`}: ${summary(counts)}; ${((performance.now() - begun) / 1000).toFixed(0)} s`);
    }
  }
}

function summary(counts: readonly SeasonCount[]): string {
  const sum = (of: (count: SeasonCount) => number) => counts.reduce((total, count) => total + of(count), 0);
  const shares = counts.map(({ filled, lines }) => (100 * filled) / lines).sort((a, b) => a - b);
  return `${((100 * sum(({ filled }) => filled)) / sum(({ lines }) => lines)).toFixed(2)} % of ${sum(({ lines }) => lines)} lines complete on the day (worst season ${shares[0]!.toFixed(1)} %, ${shares.filter((share) => share >= 97).length} of ${counts.length} at 97 % or more); ${(sum(({ unitsCut }) => unitsCut) / sum(({ unitsOrdered }) => unitsOrdered)).toFixed(2)} units cut for each ordered; ${(sum(({ lateMoves }) => lateMoves) / counts.length).toFixed(0)} days of waiting for a basin a season`;
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) void report(Number(process.argv[2] ?? 30), process.argv[3], Number(process.argv[4] ?? 1));
