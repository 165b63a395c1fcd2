import { demoGreenhouse } from '../../src/twin/demo/demoGreenhouse.ts';
import { readDemoSources } from '../../src/twin/demo/readDemoSources.ts';
import { folderState, type Folder } from './folderState.ts';

export const DEMO_DATE = '2026-11-25';
export const DEMO_AT = `${DEMO_DATE}T05:30:00Z`;

let made: Folder | undefined;

/** The demonstration greenhouse on the morning of DEMO_DATE. */
export function demoFolder(): Folder {
  made ??= folderState(demoGreenhouse({ seed: 7, date: DEMO_DATE, written: readDemoSources() }));
  return made;
}

/** The same house with every third lot and order only: a third of the work to plan. */
export function thinFolder(): Folder {
  const { state, readings } = demoFolder();
  const kept = new Set([...new Set(Object.values(state.basins).flatMap(({ planting }) => (planting === undefined ? [] : [planting.lot])))].sort().filter((_, i) => i % 3 === 0));
  const basins = Object.fromEntries(Object.entries(state.basins).map(([id, basin]) => [id, basin.planting === undefined || kept.has(basin.planting.lot) ? basin : { ...basin, planting: undefined }]));
  const orders = Object.fromEntries(Object.entries(state.orders).filter((_, i) => i % 3 === 0));
  return { state: { ...state, basins, orders }, readings };
}
