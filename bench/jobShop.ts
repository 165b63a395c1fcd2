/**
 * Published job shops, each from a cold start with seed 1: `npx tsx bench/jobShop.ts SET [seconds for each]`, SET one of vehicles (82 with two vehicles,
 * Bilge & Ulusoy 1995), small (ft06, ft10, la01-la20), ta (ta01-ta10),
 * flexible (alternative machines: Deroussi & Norre 2010, Brandimarte 1993, Hurink, Jurisch & Thole 1994, Dauzere-Peres & Paulli 1994, Fattahi et al. 2007), flexible-vehicles (more of them with two vehicles: Deroussi & Norre 2010, Kumar et al. 2011 and others; best known 0 where none is at hand), invented (of our own, in the style of the published descriptions; best known 0), or names of instances joined by commas. Prints seconds, makespan, best known, bound, gap to the bound.
 */
import { solveInThreads } from '../src/cli/jobShop/solveInThreads.ts';
import { flexibleShops } from '../test/schedule/flexibleShops.ts';
import { flexibleVehicleShops } from '../test/schedule/flexibleVehicleShops.ts';
import { inventedShops } from '../test/schedule/inventedShops.ts';
import { plainShops, vehicleShops, type PublishedShop } from '../test/schedule/publishedShops.ts';
import { verifyShopPlan } from '../src/planning/jobShop/verifyShopPlan.ts';

const [set = 'vehicles', limit = '10'] = process.argv.slice(2);

function chosen(): PublishedShop[] {
  if (set === 'vehicles') return vehicleShops();
  const plain = plainShops();
  if (set === 'small') return plain.filter(({ name }) => /^(ft06|ft10|la[01]\d|la20)$/.test(name));
  if (set === 'ta') return plain.filter(({ name }) => /^ta(0\d|10)/.test(name));
  if (set === 'flexible') return flexibleShops();
  if (set === 'flexible-vehicles') return flexibleVehicleShops();
  if (set === 'invented') return inventedShops();
  const names = set.split(',');
  return [...vehicleShops(), ...plain, ...flexibleShops(), ...flexibleVehicleShops(), ...inventedShops()].filter(({ name }) => names.includes(name));
}

async function main(): Promise<void> {
  const shops = chosen();
  if (shops.length === 0) { console.log('nothing to measure: the reference data are absent, or hold no such instance'); return; }
  let [total, reached, proven] = [0, 0, 0];
  console.log('| instance | s | makespan | best known | bound | gap to bound |\n|---|---|---|---|---|---|');
  for (const { name, shop, bestKnown } of shops) {
    const began = performance.now();
    const plan = await solveInThreads(shop, { seed: 1, seconds: Number(limit), iterations: Infinity });
    const seconds = (performance.now() - began) / 1000;
    const broken = verifyShopPlan(shop, plan);
    if (broken.length > 0) throw new Error(`${name}: ${broken.join('; ')}`);
    total += seconds;
    if (plan.makespan <= bestKnown) reached += 1;
    if (plan.proven) proven += 1;
    console.log(`| ${name} | ${seconds.toFixed(2)} | ${plan.makespan} | ${bestKnown} | ${plan.lowerBound} | ${plan.proven ? '0, proven' : `${(100 * (plan.makespan / plan.lowerBound - 1)).toFixed(2)} %`} |`);
  }
  console.log(`${shops.length} instances in ${total.toFixed(1)} s: ${reached} at the best known, ${proven} proven`);
}

await main();
