import type { BayClimates } from '../climate/bayClimates.ts';
import { instantMs } from '../day/shiftDay.ts';
import type { SowingHouse } from './sowingHouse.ts';

/** Lamps over empty berths are taken to be off: a basin carries the electricity of its own area (common practice, no source). */
export function lampsByDay(climates: BayClimates, places: SowingHouse['places']): SowingHouse['lampKWhOn'] {
  const byPlace = new Map(places.map((place) => [place.id, { place, wh: climates.byBay[place.bays[0]!]!.inside.lampWhM2 }]));
  const known = new Map<string, number>();
  return (place, date) => {
    const key = `${place}/${date}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    const { wh, place: { basinM2 } } = byPlace.get(place)!;
    const from = Math.round((instantMs(`${date}T00:00:00Z`) - climates.startMs) / 3_600_000 - climates.utcOffsetH);
    const kWh = (wh.subarray(Math.max(0, from), Math.max(0, from + 24)).reduce((sum, each) => sum + each, 0) * basinM2) / 1000;
    known.set(key, kWh);
    return kWh;
  };
}
