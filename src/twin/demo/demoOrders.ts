import { seedFor, startRandom, type RandomStream } from '../../science/seededRandom.ts';
import { addDays, weekdayOf } from './demoCalendar.ts';
import { DEMO_CROPS } from './demoCrops.ts';
import type { DemoCrop } from './demoTypes.ts';

const DAYS_AHEAD = 28;

/** Twelve invented customers: what they buy, on which weekdays (0 Sunday), and their share of a delivery day. */
const CUSTOMERS: readonly { readonly name: string; readonly crops: readonly string[]; readonly weekdays: readonly number[]; readonly share: number }[] = [
  { name: 'Gull Lane Grocers', crops: ['butterhead', 'oakleaf'], weekdays: [1, 2, 3, 4, 5, 6], share: 3 },
  { name: 'Saltwick Market Hall', crops: ['butterhead', 'oakleaf', 'basil'], weekdays: [1, 3, 5], share: 4 },
  { name: 'The Lamplighter Inn', crops: ['oakleaf', 'coriander'], weekdays: [2, 4, 6], share: 1 },
  { name: 'Harbour School Kitchens', crops: ['butterhead'], weekdays: [1, 2, 3, 4, 5], share: 2 },
  { name: 'Fennimore & Daughters', crops: ['basil', 'coriander'], weekdays: [1, 2, 3, 4, 5], share: 3 },
  { name: 'Nine Tides Restaurant', crops: ['basil', 'oakleaf'], weekdays: [3, 4, 5, 6], share: 1 },
  { name: 'Cragside Co-operative', crops: ['butterhead', 'coriander'], weekdays: [1, 3, 5], share: 4 },
  { name: 'Old Ropeworks Canteen', crops: ['coriander', 'butterhead'], weekdays: [1, 2, 3, 4, 5], share: 1 },
  { name: 'Wherry Street Noodle Bar', crops: ['coriander', 'basil'], weekdays: [2, 3, 4, 5, 6], share: 2 },
  { name: 'St Brannoc Hospital', crops: ['oakleaf', 'butterhead'], weekdays: [1, 2, 3, 4, 5, 6], share: 2 },
  { name: 'Two Herons Box Scheme', crops: ['basil', 'butterhead', 'oakleaf'], weekdays: [4], share: 6 },
  { name: 'Pell & Marsh Wholesale', crops: ['oakleaf', 'basil', 'coriander'], weekdays: [2, 4, 6], share: 5 },
];

/** orders.csv: four weeks of orders, on average a little below what the sowing rhythm yields. */
export function writeOrders(seed: number, date: string): string {
  const rows = inventOrders(seed, date, DAYS_AHEAD, () => USUAL_LEVEL).map(({ order, line, customer, crop, units, due, pricePerUnit }) => [order, line, customer, crop, units, due, pricePerUnit.toFixed(2)].join(','));
  return `order,line,customer,crop,units,due,pricePerUnit\n${rows.join('\n')}\n`;
}

/** Share of what the demo's sowing rhythm yields that is ordered. */
const USUAL_LEVEL = 0.95;

export interface InventedOrder { readonly order: string; readonly line: number; readonly customer: string; readonly crop: string; readonly units: number; readonly due: string; readonly pricePerUnit: number }

/** Orders of so many days from a date, at a level relative to what the demo's sowing rhythm yields. */
export function inventOrders(seed: number, date: string, days: number, levelOn: (date: string) => number): InventedOrder[] {
  const random = startRandom(seedFor(seed, 'orders'));
  const orders: InventedOrder[] = [];
  let number = 4100;
  for (let day = 0; day < days; day += 1) {
    const due = addDays(date, day);
    for (const customer of CUSTOMERS.filter((each) => each.weekdays.includes(weekdayOf(due)))) {
      const lines = customer.crops.filter(() => random.uniform() < 0.75);
      if (lines.length === 0) continue;
      number += 1;
      lines.forEach((crop, i) => orders.push({ order: `S${number}`, line: i + 1, customer: customer.name, crop, units: unitsOf(crop, customer.share * levelOn(due), due, random), due, pricePerUnit: PRICES[crop] ?? 1 }));
    }
  }
  return orders;
}

/** A customer's units of a crop: their share of what one delivery day can give, rounded to a crate of six. */
function unitsOf(id: string, share: number, due: string, random: RandomStream): number {
  const crop = cropOf(id);
  const sharing = CUSTOMERS.filter((each) => each.crops.includes(id) && each.weekdays.includes(weekdayOf(due))).reduce((sum, each) => sum + each.share, 0);
  const units = (perDay(crop) * share) / sharing;
  return Math.max(6, Math.round((units * (0.85 + 0.3 * random.uniform())) / 6) * 6);
}

/** Units that a day yields: one lot every second day, six delivery days in seven. */
function perDay(crop: DemoCrop): number {
  const plants = crop.stages.at(-1)!.plantsInBasins.reduce((sum, each) => sum + each, 0);
  return ((plants * (1 - crop.lossShare)) / crop.plantsPerUnit / 2) * (7 / 6);
}

function cropOf(id: string): DemoCrop {
  const crop = DEMO_CROPS.find((each) => each.id === id);
  if (crop === undefined) throw new Error(`the demo does not grow ${id}`);
  return crop;
}

const PRICES: Readonly<Record<string, number>> = { butterhead: 0.95, oakleaf: 1.05, basil: 1.2, coriander: 0.9 };
