import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { basinLayoutOf } from '../../src/greenhouse/basinLayoutOf.ts';
import type { BasinState } from '../../src/greenhouse/state.ts';
import { makeScene } from '../../src/twin/scan/makeScene.ts';
import { writePly } from '../../src/twin/scan/writePly.ts';
import { folderState } from '../planning/folderState.ts';
import { DEMO_DATE, type DemoDesk } from './openDemoDesk.ts';

export interface GivenScans { readonly basin: string; readonly plants: number }

/** Pixels of the invented cameras on the rafts: the newer scan is fine, the one of a week before coarse. */
const [FINE_MM, COARSE_MM] = [2.8, 4];
/** Coarse pixels with the depth noise of fine ones. */
const CALM = { noisePx: 0.05, correlatedPx: 0.03 };
/** From so many points on, cells of a basin of this size are as small as they get. */
const SAME_CELLS = 800_000;

/**
 * Lays three clouds into the folder of a demo: a basin of butterhead a week ago (young plants) and this morning (touching each other,
 * `points` points), measured in cells of the same size, and one of another morning that is cut off. Points beyond what the cameras see are copies a few hundredths of a
 * millimetre aside.
 */
export function giveScans({ folder, files }: Pick<DemoDesk, 'folder' | 'files'>, points: number): GivenScans {
  const { state } = folderState(files);
  const basin = Object.values(state.basins).filter(({ planting }) => planting?.crop === 'butterhead' && planting.stage === 'finish' && planting.placed < daysBefore(8))
    .sort((a, b) => b.planting!.placed.localeCompare(a.planting!.placed))[0];
  if (basin?.planting === undefined) throw new Error('No basin of the demo fits.');
  const stage = state.crops.butterhead!.stages.find(({ id }) => id === basin.planting!.stage);
  const layout = basinLayoutOf(basin.type, { stage, plants: basin.planting.plants });
  const types = layout.rafts.map(() => 'butterhead' as const);
  const before = makeScene({ stage: 'young', seed: 11, layout, types, rig: { ...CALM, pixelMm: COARSE_MM } }), now = makeScene({ stage: 'touching', seed: 11, layout, types, rig: { ...CALM, pixelMm: FINE_MM } });
  mkdirSync(join(folder, 'scans'), { recursive: true });
  const give = (day: string, clock: string, bytes: Buffer): void => writeFileSync(join(folder, 'scans', nameOf(basin, day, clock)), bytes);
  give(daysBefore(7), '05-30-00', writePly(before.cloud, Math.min(points, SAME_CELLS)));
  const cloud = writePly(now.cloud, points);
  give(daysBefore(1), '05-10-00', cloud.subarray(0, 200_001));
  give(DEMO_DATE, '04-50-00', cloud);
  return { basin: basin.id, plants: now.plants.filter(({ empty }) => !empty).length };
}

const nameOf = ({ id }: BasinState, day: string, clock: string): string => `${id}_${day}T${clock}Z.ply`;
const daysBefore = (days: number): string => new Date(Date.parse(`${DEMO_DATE}T00:00:00Z`) - days * 86_400_000).toISOString().slice(0, 10);
