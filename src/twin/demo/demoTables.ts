import { seedFor, startRandom } from '../../science/seededRandom.ts';
import { addDays, HISTORY_DAYS, instantAt, parseDate } from './demoCalendar.ts';
import { dryShare, type GrowthDays } from './demoGrowth.ts';
import type { TrayLot } from './demoStands.ts';
import type { DemoYear, Stand } from './demoTypes.ts';

type GrownStand = Stand & { readonly growth: GrowthDays };

/** lots.csv */
export function writeLots(date: string, stands: readonly Stand[]): string {
  const day = (number: number) => addDays(date, number - HISTORY_DAYS);
  const rows = stands.map((stand, i) => [stand.lot, stand.crop.id, stand.basin, stand.stage, day(stand.sownDay), day(stand.placedDay), stand.plants, imagedOn(stand, i, day)].join(','));
  return `lot,crop,basin,stage,sown,placed,plants,imaged\n${rows.join('\n')}\n`;
}

/** sowings.csv */
export const writeSowings = (trays: readonly TrayLot[]): string => `lot,crop,sown,seeds,plants\n${trays.map(({ lot, crop, sown, seeds, plants }) => [lot, crop.id, sown, seeds, plants].join(',')).join('\n')}\n`;

/** The basin's turn comes once a week, counted from its number; empty where that was before these plants came. */
function imagedOn(stand: Stand, index: number, day: (number: number) => string): string {
  const last = HISTORY_DAYS - 1 - (index % 7);
  return last >= stand.placedDay ? day(last) : '';
}

/** samples.csv: every lot in glass is sampled once a week, six plants each. */
export function writeSamples(seed: number, date: string, stands: readonly GrownStand[]): string {
  const rows = firstOfEachLot(stands).flatMap((stand) => {
    const random = startRandom(seedFor(seed, `samples ${stand.lot}`));
    return Array.from({ length: HISTORY_DAYS }, (_, day) => day)
      .filter((day) => (day - stand.startDay) % 7 === 4 && day - stand.startDay > 14 && day < HISTORY_DAYS - 1)
      .flatMap((day) => sampleRows(addDays(date, day - HISTORY_DAYS + 1), stand, stand.growth[day] ?? 0, random));
  });
  return `date,lot,basin,plant,freshG,dryG\n${rows.join('\n')}\n`;
}

function sampleRows(date: string, stand: Stand, meanDryG: number, random: ReturnType<typeof startRandom>): string[] {
  return Array.from({ length: 6 }, (_, plant) => {
    const dry = meanDryG * Math.exp(0.14 * random.normal());
    const fresh = dry / (dryShare(dry) * Math.exp(0.05 * random.normal()));
    return [date, stand.lot, '', plant + 1, fresh.toFixed(2), dry.toFixed(3)].join(',');
  });
}

const firstOfEachLot = (stands: readonly GrownStand[]): GrownStand[] => stands.filter((stand, i) => stands.findIndex((other) => other.lot === stand.lot) === i);

/** weather.csv: the invented year, in the place's winter time. */
export function writeWeather(year: DemoYear): string {
  const start = parseDate(`${year.year}-01-01`);
  const rows = year.airC.map((air, hour) => {
    const at = new Date(start + hour * 3_600_000).toISOString().slice(0, 16);
    return `${at},${air},${year.rhPct[hour]},${year.globalWM2[hour]},${year.windMS[hour]}`;
  });
  return `time,airC,rhPct,globalWm2,windMS\n${rows.join('\n')}\n`;
}

const ANALYSIS_COLUMNS = 'analysis,at,place,laboratory,pH,ecMsPerCm25,ammoniumMmolPerL,potassiumMmolPerL,calciumMmolPerL,magnesiumMmolPerL,sodiumMmolPerL,nitrateMmolPerL,chlorideMmolPerL,sulfateMmolPerL,phosphateMmolPerL,bicarbonateMmolPerL,siliconMmolPerL,ironUmolPerL,manganeseUmolPerL,zincUmolPerL,boronUmolPerL,copperUmolPerL,molybdenumUmolPerL,absorbance254PerCm,pathogens';

/** Invented waters; the cations and anions of each balance within a few percent. */
const WATERS = {
  'tank:rain': { pH: 6.3, ec: 0.05, macro: [0.01, 0.02, 0.08, 0.03, 0.16, 0.02, 0.18, 0.04, 0, 0.1, 0.01], micro: [0.1, 0.1, 0.6, 0.3, 0.1, 0], absorbance: '', test: '' },
  'tank:mains': { pH: 7.7, ec: 0.42, macro: [0, 0.05, 1.35, 0.42, 0.62, 0.18, 0.72, 0.41, 0, 2.45, 0.12], micro: [0.2, 0.1, 0.8, 1.2, 0.4, 0.02], absorbance: '', test: '' },
  'tank:return-1': { pH: 6.2, ec: 1.34, macro: [0.2, 4.1, 2.3, 0.92, 1.15, 8.1, 0.95, 0.98, 0.62, 0.35, 0.08], micro: [11, 1.4, 1.9, 14, 0.5, 0.25], absorbance: 0.42, test: '' },
  'tank:return-2': { pH: 6.4, ec: 1.18, macro: [0.15, 3.4, 1.9, 0.85, 1.9, 6.2, 1.75, 0.9, 0.5, 0.3, 0.08], micro: [8, 1.1, 1.5, 11, 0.4, 0.2], absorbance: 0.38, test: 'clear' },
} as const;

/** water-analyses.csv: the sources and the return tanks, weekly. */
export function writeAnalyses(seed: number, date: string): string {
  const rows = Object.entries(WATERS).flatMap(([place, water]) => [-15, -8, -1].map((day) => {
    const random = startRandom(seedFor(seed, `analysis ${place} ${day}`));
    const strength = 1 + 0.02 * random.normal();
    const numbers = [...water.macro, ...water.micro].map((value) => Number((value * strength).toPrecision(3)));
    const name = `${place.slice(5)}-${addDays(date, day).replaceAll('-', '')}`;
    return [name, instantAt(addDays(date, day), 9), place, 'Coast Water Laboratory', water.pH, (water.ec * strength).toFixed(2), ...numbers, water.absorbance, water.test].join(',');
  }));
  return `${ANALYSIS_COLUMNS}\n${rows.join('\n')}\n`;
}
