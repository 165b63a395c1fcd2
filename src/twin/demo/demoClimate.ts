import { seedFor, startRandom } from '../../science/seededRandom.ts';
import { addDays, HISTORY_DAYS, hourOfYear } from './demoCalendar.ts';
import type { DemoYear } from './demoTypes.ts';

/** Measured climate of one bay over the history, hour by hour. */
export interface BayHistory {
  readonly bay: string;
  readonly airC: readonly number[];
  readonly rhPct: readonly number[];
  readonly co2Ppm: readonly number[];
  readonly ppfdUmolM2S: readonly number[];
  /** mol/m2 above the crop, one entry a day. */
  readonly dliMolM2: readonly number[];
}

interface BayHabit { readonly bay: string; readonly dayC: number; readonly nightC: number; readonly transmissivity: number; readonly lampUmol: number; readonly lampHours: number }

const BAYS: readonly BayHabit[] = [
  { bay: 'nursery', dayC: 21, nightC: 19, transmissivity: 0.62, lampUmol: 160, lampHours: 14 },
  { bay: 'glass-west', dayC: 20, nightC: 17, transmissivity: 0.68, lampUmol: 195, lampHours: 16 },
  { bay: 'glass-east', dayC: 20, nightC: 17, transmissivity: 0.66, lampUmol: 185, lampHours: 16 },
];

/** What the instruments of each bay saw in the three weeks before `date`: the invented year's weather seen through glass and lamps. */
export function inventBayHistories(seed: number, date: string, year: DemoYear): readonly BayHistory[] {
  return BAYS.map((habit) => inventBay(habit, startRandom(seedFor(seed, `climate ${habit.bay}`)), date, year));
}

function inventBay(habit: BayHabit, random: ReturnType<typeof startRandom>, date: string, year: DemoYear): BayHistory {
  const hours = { airC: [] as number[], rhPct: [] as number[], co2Ppm: [] as number[], ppfdUmolM2S: [] as number[] };
  const dliMolM2: number[] = [];
  for (let day = 0; day < HISTORY_DAYS; day += 1) {
    const first = hourOfYear(addDays(date, day - HISTORY_DAYS), year.year);
    let dli = 0;
    for (let hour = 0; hour < 24; hour += 1) {
      const sun = year.globalWM2[first + hour] ?? 0;
      // Global to PPFD: 0.45 x 4.57 umol/J (McCree 1972, from memory, unverified).
      const inside = sun * 0.45 * 4.57 * habit.transmissivity;
      const lampsOn = hour >= 22 - habit.lampHours && hour < 22 && sun < 250;
      const ppfd = inside + (lampsOn ? habit.lampUmol : 0);
      const lit = ppfd > 20;
      hours.airC.push(Number((((lit ? habit.dayC : habit.nightC) + sun / 160 + 0.4 * random.normal())).toFixed(1)));
      hours.rhPct.push(Number(Math.min(95, Math.max(50, (lit ? 76 : 83) + 3 * random.normal())).toFixed(0)));
      hours.co2Ppm.push(Number(((lit ? 600 : 480) + 25 * random.normal()).toFixed(0)));
      hours.ppfdUmolM2S.push(Number(Math.max(0, ppfd * (1 + 0.02 * random.normal())).toFixed(0)));
      dli += ppfd * 0.0036;
    }
    dliMolM2.push(dli);
  }
  return { bay: habit.bay, ...hours, dliMolM2 };
}
