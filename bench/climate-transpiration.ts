/** Speed of canopy transpiration: 240 basins x 720 hours x 50 members, day by day. Run with: npx tsx bench/climate-transpiration.ts */
import { transpirationLPerM2H } from '../src/science/climate/transpiration.ts';
import { prepareTranspiration, sumTranspirationLPerM2 } from '../src/science/climate/transpirationTable.ts';

const [BASINS, HOURS, MEMBERS] = [240, 720, 50];
const climate = (member: number) => ({
  hours: HOURS,
  airC: Float64Array.from({ length: HOURS }, (_, hour) => 19 + 4 * Math.sin(hour / 3.8) + 0.01 * member),
  rhPct: Float64Array.from({ length: HOURS }, (_, hour) => 75 + 10 * Math.cos(hour / 3.8)),
  ppfdUmolM2S: Float64Array.from({ length: HOURS }, (_, hour) => Math.max(0, 500 * Math.sin((hour % 24 - 6) * Math.PI / 12))),
});

let start = performance.now();
let litres = 0;
for (let member = 0; member < MEMBERS; member += 1) {
  const table = prepareTranspiration(climate(member));
  for (let basin = 0; basin < BASINS; basin += 1) {
    for (let day = 0; day < HOURS / 24; day += 1) {
      litres += sumTranspirationLPerM2(table, day * 24, day * 24 + 24, { leafAreaIndex: 0.1 + 0.1 * day + 0.001 * basin, groundCover: Math.min(0.95, 0.05 + 0.04 * day) });
    }
  }
}
const tableMs = performance.now() - start;

start = performance.now();
let exact = 0;
const one = climate(0);
for (let hour = 0; hour < HOURS * 100; hour += 1) {
  const at = hour % HOURS;
  exact += transpirationLPerM2H({ airC: one.airC[at] as number, rhPct: one.rhPct[at] as number, ppfdUmolM2S: one.ppfdUmolM2S[at] as number, leafAreaIndex: 2, groundCover: 0.8 });
}
const exactNs = (performance.now() - start) * 1e6 / (HOURS * 100);
console.log(`table: ${BASINS} basins x ${HOURS} h x ${MEMBERS} members in ${tableMs.toFixed(0)} ms (${(litres / 1e6).toFixed(3)} million L/m2); exact balance ${exactNs.toFixed(0)} ns an hour (${exact.toFixed(0)} L/m2)`);
