import { inventBayHistories } from './demoClimate.ts';
import { growStand } from './demoGrowth.ts';
import { writeOrders } from './demoOrders.ts';
import { writeReadings } from './demoReadings.ts';
import { standOnDate, traysOnDate } from './demoStands.ts';
import { writeAnalyses, writeLots, writeSamples, writeSowings, writeWeather } from './demoTables.ts';
import { inventYear } from './demoYear.ts';

export interface DemoRequest {
  /** Whole number; the same seed and date give the same folder. */
  readonly seed: number;
  /** The morning that the demo is made for, YYYY-MM-DD. History ends here, orders begin here. */
  readonly date: string;
  /** The hand-written files, path in the folder -> text: greenhouse.yaml, fertilisers.yaml, crops/*.yaml. */
  readonly written: Readonly<Record<string, string>>;
}

/**
 * The demonstration greenhouse as files, path -> text. Everything in it is invented; growth follows its own simple law
 * (demoGrowth.ts), which none of the planner's models knows.
 */
export function demoGreenhouse(request: DemoRequest): Record<string, string> {
  const { seed, date } = request;
  const year = inventYear(seed, Number(date.slice(0, 4)) - 1);
  const bays = inventBayHistories(seed, date, year);
  const stands = standOnDate(seed, date).map((stand) => ({ ...stand, growth: growStand(stand, bays) }));
  return {
    ...request.written,
    'lots.csv': writeLots(date, stands),
    'sowings.csv': writeSowings(traysOnDate(date)),
    'samples.csv': writeSamples(seed, date, stands),
    'readings.csv': writeReadings(seed, date, stands, bays),
    'water-analyses.csv': writeAnalyses(seed, date),
    'orders.csv': writeOrders(seed, date),
    'weather.csv': writeWeather(year),
  };
}
