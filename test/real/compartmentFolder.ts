/** The greenhouse folder that the measured compartment's grower would have had on a morning: nothing dated later is in it. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parse, stringify } from 'yaml';
import type { Compartment } from './compartment.ts';

const data = fileURLToPath(new URL('../../data/', import.meta.url));
const read = (path: string) => readFileSync(`${data}${path}`, 'utf8');
/** Local standard time of the weather file: UTC-8 all year. */
const OFFSET = '-08:00';
const BASIN_M2 = 2;
const LOTS = [{ lot: 'MEASURED-A', crop: 'lettuce-recirculating' }, { lot: 'MEASURED-B', crop: 'lettuce-hoagland' }] as const;
const PLANTS = 180;

export function compartmentFolder(from: Compartment, date: string): Record<string, string> {
  return {
    'greenhouse.yaml': stringify(greenhouseOn(from, date)),
    'fertilisers.yaml': read('fertilisers.yaml'),
    'crops/lettuce-recirculating.yaml': stringify(card(from, 'lettuce-recirculating', LETTUCE)),
    'crops/lettuce-hoagland.yaml': stringify(card(from, 'lettuce-hoagland', HOAGLAND)),
    'weather.epw': from.epw,
    'lots.csv': lotsOn(from, date),
    'samples.csv': samplesUntil(from, date),
    'readings.csv': readingsUntil(from, date),
    'orders.csv': `order,line,customer,crop,units,due\nT1,1,Test kitchen,lettuce-recirculating,100,${from.harvest.date}\nT2,1,Test kitchen,lettuce-hoagland,150,${from.harvest.date}\n`,
    'water-analyses.csv': ANALYSES,
  };
}

/** The demo's stations, vehicles, sources and prices around one glass bay; lamps aim at the light measured so far. */
function greenhouseOn(from: Compartment, date: string): unknown {
  const demo = parse(read('demo/greenhouse.yaml')) as Record<string, unknown> & { floor: { grids: { bay: string }[] }; bays: { id: string }[] };
  const bay = demo.bays.find((each) => each.id === 'glass-west');
  const sofar = from.climate.filter((hour) => hour.endDate < date);
  const days = new Set(sofar.map((hour) => hour.endDate)).size;
  const dli = sofar.reduce((sum, hour) => sum + (hour.ppfdUmolM2S ?? 0) * 0.0036, 0) / days;
  return {
    ...demo, id: 'measured', name: 'Measured compartment',
    location: { latitudeDeg: 48.12, longitudeDeg: -123.5, elevationM: 88, timeZone: 'Etc/GMT+8' },
    bays: [{ ...bay, lamps: { ppfdUmolM2S: 180, efficacyUmolPerJ: 3, targetDliMolM2: Number(dli.toFixed(2)), hoursPerDayMax: 18, onBelowGlobalWm2: 250 } }, demo.bays.find((each) => each.id === 'nursery')],
    floor: { ...demo.floor, grids: demo.floor.grids.filter((grid) => grid.bay !== 'glass-east'), edges: (demo.floor as unknown as { edges: { to: string }[] }).edges.filter((edge) => !edge.to.startsWith('E')) },
    basinTypes: [{ id: 'standard', lengthMm: 2000, widthMm: 1000, depthMm: 230, emptyKg: 50, rafts: 4, raftKg: 1.6, levelMinShare: 0.8 }],
    basins: [{ prefix: 'M', count: 24, type: 'standard', bay: 'glass-west' }],
  };
}

const LETTUCE = {
  source: 'Sonneveld & Straver 1994, lettuce in recirculating water culture (from memory, unverified)',
  mmolPerL: { NH4: 1.25, K: 11, Ca: 4.5, Mg: 1, NO3: 19, SO4: 1.125, P: 2 }, umolPerL: { Fe: 40, Mn: 5, Zn: 4, B: 30, Cu: 0.75, Mo: 0.5 }, ec: [2, 3],
};
const HOAGLAND = {
  source: 'Hoagland & Arnon 1950, solution no. 1 (from memory, unverified)',
  mmolPerL: { NH4: 0, K: 6, Ca: 5, Mg: 2, NO3: 15, SO4: 2, P: 1 }, umolPerL: { Fe: 40, Mn: 9.1, Zn: 0.8, B: 46, Cu: 0.3, Mo: 0.1 }, ec: [1.7, 2.6],
};

function card(from: Compartment, id: string, target: typeof LETTUCE): unknown {
  const demo = parse(read('crops/butterhead.yaml')) as { water: object; harvest: object; growth: object };
  const { ec, ...tableOf } = target;
  return {
    ...demo, id, title: id, gramsPerUnit: 200, harvest: { ...demo.harvest, readyFreshG: 210, latestFreshG: 450 },
    // The young plants' mass was not weighed at planting: a wide guess.
    growth: { ...demo.growth, seedlingDryMg: 100, seedlingSpread: 0.5 },
    water: { ...demo.water, target: tableOf, feed: tableOf, ecMsPerCm25: ec },
    stages: from.spacing.map((each, i) => ({ id: `spacing-${i + 1}`, title: `Spacing ${i + 1}`, bay: 'glass', plantsPerM2: each.plantsPerM2, days: Math.max(1, daysBetween(each.from, each.until)) })),
  };
}

interface Standing { readonly lot: string; readonly crop: string; readonly basin: string; readonly stage: string; readonly placed: string; readonly plants: number }

/** Both lots as they stand on the date: as many basins as the spacing of that day asks for. */
function standsOn(from: Compartment, date: string): Standing[] {
  const index = from.spacing.findLastIndex((each) => each.from <= date);
  const spacing = from.spacing[index]!;
  const plants = Math.floor(spacing.plantsPerM2 * BASIN_M2);
  return LOTS.flatMap(({ lot, crop }, l) => Array.from({ length: Math.floor(PLANTS / plants) }, (_, i) =>
    ({ lot, crop, basin: `M${String(l * 12 + i + 1).padStart(3, '0')}`, stage: `spacing-${index + 1}`, placed: spacing.from, plants })));
}

function lotsOn(from: Compartment, date: string): string {
  const rows = standsOn(from, date).map((is) => [is.lot, is.crop, is.basin, is.stage, '2022-01-13', is.placed, is.plants].join(','));
  return `lot,crop,basin,stage,sown,placed,plants\n${rows.join('\n')}\n`;
}

function samplesUntil(from: Compartment, date: string): string {
  const rows = from.samples.filter((sample) => sample.date < date).flatMap((sample) =>
    LOTS.map(({ lot }) => [sample.date, lot, '', sample.plant, sample.freshG, sample.dryG ?? ''].join(',')));
  return `date,lot,basin,plant,freshG,dryG\n${rows.join('\n')}\n`;
}

function readingsUntil(from: Compartment, date: string): string {
  const rows = from.climate.filter((hour) => hour.endDate < date).flatMap((hour) => {
    const at = endOf(hour.endDate, hour.endHour);
    return (['airC', 'rhPct', 'co2Ppm', 'ppfdUmolM2S'] as const).filter((name) => hour[name] !== undefined)
      .map((name) => `${at},bay:glass-west,${name},${hour[name]!.toFixed(2)},,bay sensor`);
  });
  return `at,place,quantity,value,sd,instrument\n${[...rows, ...basinReadings(from, date)].join('\n')}\n`;
}

/** Nobody wrote down the water of the compartment's gullies: levels and conductivities that call for a filling are invented. */
function basinReadings(from: Compartment, date: string): string[] {
  return standsOn(from, date).flatMap(({ basin, crop }, i) => {
    const at = `${date}T05:00:00${OFFSET}`;
    return [`${at},basin:${basin},levelMm,${170 + (i % 5) * 4},1,level rod`, `${at},basin:${basin},ecMsPerCm25,${crop === 'lettuce-hoagland' ? 1.9 : 2.3},0.03,probe`, `${at},basin:${basin},pH,6.0,0.05,probe`];
  });
}

const endOf = (date: string, hour: number) => `${new Date(Date.parse(`${date}T00:00:00Z`) + hour * 3_600_000).toISOString().slice(0, 19)}${OFFSET}`;
const daysBetween = (from: string, until: string) => Math.round((Date.parse(until) - Date.parse(from)) / 86_400_000);

/** Invented rain, mains and returned water. */
const ANALYSES = `analysis,at,place,pH,ecMsPerCm25,ammoniumMmolPerL,potassiumMmolPerL,calciumMmolPerL,magnesiumMmolPerL,sodiumMmolPerL,nitrateMmolPerL,chlorideMmolPerL,sulfateMmolPerL,phosphateMmolPerL,bicarbonateMmolPerL
rain-1,2022-02-01T09:00:00-08:00,tank:rain,6.3,0.05,0.01,0.02,0.08,0.03,0.16,0.02,0.18,0.04,0,0.1
mains-1,2022-02-01T09:00:00-08:00,tank:mains,7.7,0.42,0,0.05,1.35,0.42,0.62,0.18,0.72,0.41,0,2.45
return-1,2022-02-01T09:00:00-08:00,tank:return-1,6.2,1.34,0.2,4.1,2.3,0.92,1.15,8.1,0.95,0.98,0.62,0.35
`;
