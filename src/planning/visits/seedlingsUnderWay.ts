import type { ShiftSoFar } from './shiftSoFar.ts';

/** Seedlings by lot that visits of the approved plan are still to set out of their trays. */
export function seedlingsUnderWay(soFar: ShiftSoFar | undefined): ReadonlyMap<string, number> {
  const plants = new Map<string, number>();
  for (const { effect } of soFar?.carried.flatMap(({ remaining }) => remaining) ?? []) {
    if (effect.kind === 'transplanting' && effect.fromBasin === undefined) plants.set(effect.lot, (plants.get(effect.lot) ?? 0) + effect.plants);
  }
  return plants;
}
