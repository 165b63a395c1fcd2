import type { ScanResult } from '../../science/scan/scanResult.ts';

/** The result of a scan for people: one line of quality, one line a plant. */
export function scanSheet({ quality, plants }: ScanResult): string {
  const growing = plants.filter((plant) => plant.present);
  const noise = Math.max(0, ...quality.rafts.map(({ noiseMm = 0 }) => noiseMm));
  const head = [
    `${growing.length} plants on ${plants.length} positions, ${quality.points} points, cells of ${quality.cellMm} mm; rim within ${quality.rimFlatnessMm.toFixed(1)} mm, points on bare raft within ${noise === 0 ? 'an unknown distance' : `${noise.toFixed(1)} mm`}.`,
    ...quality.rafts.filter((raft) => raft.plane === 'borrowed').map((raft) => `Raft ${raft.raft} is hidden by leaves: its level is taken from the others.`),
    '',
    'raft       position   area cm2  volume cm3  height mm  width mm  shared  points',
  ];
  const lines = plants.map((plant) => `${String(plant.raft).padEnd(11)}${String(plant.position).padEnd(11)}${plant.present ? figures(plant) : 'empty'}`);
  return [...head, ...lines].join('\n');
}

const figures = (plant: ScanResult['plants'][number]): string => [
  (plant.areaMm2 / 100).toFixed(1).padStart(8), (plant.volumeMm3 / 1000).toFixed(1).padStart(10), plant.heightP95Mm.toFixed(1).padStart(9),
  plant.diameterMm.toFixed(0).padStart(8), `${(plant.sharedOutline * 100).toFixed(0)} %`.padStart(6), String(plant.points).padStart(6)].join('  ');
