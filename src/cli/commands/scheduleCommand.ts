import { performance } from 'node:perf_hooks';
import { readJobShop } from '../../planning/jobShop/readJobShop.ts';
import type { ShopPlan } from '../../planning/jobShop/shopPlan.ts';
import { verifyShopPlan } from '../../planning/jobShop/verifyShopPlan.ts';
import { accepted, type Outcome } from '../../science/refusal.ts';
import type { CliCommand, GivenOptions } from '../cliCommand.ts';
import { solveInThreads } from '../jobShop/solveInThreads.ts';
import { readJsonFile } from '../readJsonFile.ts';
import { refuseOption } from '../refuseOption.ts';
import { shopSheet } from '../sheets/shopSheet.ts';

const DEFAULT_SECONDS = 10;

export const scheduleCommand: CliCommand = {
  name: 'schedule', argument: 'FILE',
  summary: 'Plan a job shop with vehicles as short as can be, with the proof beside it, from a JSON file. "buffers": {"M1": 2} gives a location finite waiting places beside its machine.',
  options: [
    { flags: '--seconds <s>', summary: `Longest time to search, 0.1 to 86400 (default ${DEFAULT_SECONDS}; with --iterations no limit). It ends earlier when the plan is proven.` },
    { flags: '--seed <n>', summary: 'Start of the random numbers, 0 to 4294967295 (default 1).' },
    { flags: '--iterations <n>', summary: 'Steps of each of the two searches; the same file, seed and steps give the same plan bit for bit.' },
  ],
  run: async (path, options) => {
    const began = performance.now();
    const budget = readBudget(options);
    if (!budget.ok) return budget;
    const input = readJsonFile(path);
    if (!input.ok) return input;
    const shop = readJobShop(input.value);
    if (!shop.ok) return shop;
    const plan = await solveInThreads(shop.value, budget.value);
    const broken = verifyShopPlan(shop.value, plan);
    if (broken.length > 0) throw new Error(`the plan breaks its own rules: ${broken.slice(0, 3).join('; ')}`);
    const seconds = Math.round(performance.now() - began) / 1000;
    return accepted({ json: answerOf(plan, seconds), sheet: shopSheet(plan, seconds) }, shop.warnings);
  },
};

const answerOf = ({ makespan, lowerBound, proven, operations, moves }: ShopPlan, seconds: number) => ({ makespan, lowerBound, proven, seconds, operations, moves });

function readBudget({ seconds, seed, iterations }: GivenOptions): Outcome<{ seed: number; seconds: number; iterations: number }> {
  const steps = iterations === undefined ? Infinity : Number(iterations);
  if (iterations !== undefined && !(Number.isInteger(steps) && steps >= 1 && steps <= 1e12)) return refuseOption('--iterations', String(iterations), 'a whole number from 1 to 1e12');
  const limit = seconds === undefined ? (iterations === undefined ? DEFAULT_SECONDS : 86_400) : Number(seconds);
  if (!(limit >= 0.1 && limit <= 86_400)) return refuseOption('--seconds', String(seconds), 'a number from 0.1 to 86400');
  const start = seed === undefined ? 1 : Number(seed);
  if (!(Number.isInteger(start) && start >= 0 && start <= 0xffff_ffff) || seed === '') return refuseOption('--seed', String(seed), 'a whole number from 0 to 4294967295');
  return accepted({ seed: start, seconds: limit, iterations: steps });
}
