import { basinAreaM2 } from '../../greenhouse/basinGeometry.ts';
import { basinsOf } from '../../greenhouse/basinsOf.ts';
import type { GreenhouseFile } from '../../greenhouse/schema/greenhouseFile.ts';
import type { SowingPlace } from './sowingProblem.ts';

/** Bays of one kind whose mean light differs by no more than this share are planned as one (own choice: half a day of growth). */
const SAME_LIGHT = 0.06;

/**
 * The bays as sowing sees them: nursery and glass, bays of one kind with nearly the same light together. `lightOf` is a bay's
 * mean daily light integral over the horizon.
 */
export function sowingPlaces(file: GreenhouseFile, lightOf: (bay: string) => number): SowingPlace[] {
  const groups: { kind: 'nursery' | 'glass'; light: number; bays: string[] }[] = [];
  for (const { id, kind } of [...file.bays].sort((a, b) => lightOf(b.id) - lightOf(a.id) || (a.id < b.id ? -1 : 1))) {
    const same = groups.find((group) => group.kind === kind && Math.abs(group.light / lightOf(id) - 1) <= SAME_LIGHT);
    if (same === undefined) groups.push({ kind, light: lightOf(id), bays: [id] }); else same.bays.push(id);
  }
  const all = basinsOf(file);
  return groups.flatMap(({ kind, bays }): SowingPlace[] => {
    const basins = all.filter(({ bay }) => bays.includes(bay));
    if (basins.length === 0) return [];
    const basinM2 = basins.reduce((sum, { type }) => sum + basinAreaM2(type), 0) / basins.length;
    const title = bays.map((bay) => file.bays.find(({ id }) => id === bay)!.title).sort().join(' and ');
    return [{ id: [...bays].sort().join('+'), title, kind, bays, basins: basins.length, basinM2, usableBasins: Math.floor(basins.length * (1 - file.sowing.reserveShare)) }];
  });
}
