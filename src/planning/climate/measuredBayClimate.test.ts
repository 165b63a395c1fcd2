import { describe, expect, it } from 'vitest';
import type { BayDescription } from '../../greenhouse/schema/greenhouseFile.ts';
import { checkBay } from '../../science/climate/bayDesign.ts';
import { bayDesignOf } from './bayDesignOf.ts';
import { measuredBayClimate } from './measuredBayClimate.ts';

const grid = { startUtcMs: Date.parse('2026-03-01T00:00:00Z'), utcOffsetH: 0, hours: 3 };
const reading = (at: string, quantity: string, value: number) => ({ at, place: 'bay:g', quantity, value });

describe('measuredBayClimate', () => {
  it('makes hourly means, a stamp at the hour\'s end counting for the hour before', () => {
    const { airC, rhPct } = measuredBayClimate([reading('2026-03-01T00:20:00Z', 'airC', 18), reading('2026-03-01T01:00:00Z', 'airC', 20), reading('2026-03-01T02:30:00Z', 'airC', 22)], grid);
    expect(airC!.values[0]).toBe(19);
    expect(airC!.values[2]).toBe(22);
    expect([...airC!.absent.keys()]).toEqual([1]);
    expect(rhPct).toBeUndefined();
  });

  it('leaves out what no instrument can have seen, and hours outside the grid', () => {
    expect(measuredBayClimate([reading('2026-03-01T00:20:00Z', 'airC', 900), reading('2026-02-28T23:20:00Z', 'airC', 18), reading('2026-03-01T00:20:00Z', 'rhPct', Number.NaN)], grid)).toEqual({ ...grid });
  });
});

describe('bayDesignOf', () => {
  const bay: BayDescription = {
    id: 'g', title: 'Glass', kind: 'glass', floorM2: 500, parTransmissivity: 0.68, coverToFloor: 1.35, heightM: 5,
    setPoints: { airDayC: 20, airNightC: 17, ventAboveC: 25, rhMaxPct: 87, co2Ppm: 600 },
    lamps: { ppfdUmolM2S: 195, efficacyUmolPerJ: 3, targetDliMolM2: 14, hoursPerDayMax: 18, onBelowGlobalWm2: 250 },
  };
  it('hands on what the file says, in the models\' terms, and passes their checks', () => {
    const design = bayDesignOf(bay, { leafAreaIndex: 1.5, groundCover: 0.7 });
    expect(checkBay(design)).toEqual([]);
    expect(design).toMatchObject({ coverTransmissivity: 0.68, structureTransmissivity: 1, heatDayC: 20, heatNightC: 17, ventAboveHeatK: 5, co2SetPpm: 600, rhMaxPct: 87 });
    expect(design.lamps).toMatchObject({ ppfdUmolM2S: 195, onFromH: 4, onUntilH: 22, offAboveGlobalWM2: 250, targetDliMolM2: 14 });
    expect(bayDesignOf({ ...bay, lamps: undefined }, { leafAreaIndex: 1, groundCover: 1 }).lamps).toBeUndefined();
  });
});
