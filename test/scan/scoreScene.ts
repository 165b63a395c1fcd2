import type { MeasuredScan } from '../../src/science/scan/scanBasin.ts';
import { LABEL_MM, LABEL_SIDE, type PlantTruth, type Scene } from '../../src/twin/scan/makeScene.ts';

/** How far a scan lies from the truth; percentages and mm, signed means over plants unless said otherwise. */
export interface SceneScore {
  readonly areaPercent: number;
  readonly areaScatterPercent: number;
  readonly volumePercent: number;
  readonly volumeScatterPercent: number;
  readonly heightMm: number;
  readonly heightScatterMm: number;
  /** Of each raft, sum of areas against the sum of what is visible. */
  readonly visiblePercent: readonly number[];
  readonly falsePlants: number;
  readonly missedPlants: number;
  /** Share of truly labelled leaf cells with the right label. */
  readonly labels: number;
}

type Truth = Pick<PlantTruth, 'raft' | 'empty' | 'areaMm2' | 'volumeMm3' | 'heightP95Mm' | 'visibleMm2'>;

export function scoreScene(scan: MeasuredScan, truth: readonly Truth[], scene?: Pick<Scene, 'labels'>): SceneScore {
  const found = scan.result.plants;
  const growing = truth.map((_, i) => i).filter((i) => !truth[i]!.empty);
  const area = spread(growing.map((i) => 100 * (found[i]!.areaMm2 / truth[i]!.areaMm2 - 1)));
  const volume = spread(growing.map((i) => 100 * (found[i]!.volumeMm3 / truth[i]!.volumeMm3 - 1)));
  const height = spread(growing.map((i) => found[i]!.heightP95Mm - truth[i]!.heightP95Mm));
  const rafts = [...new Set(truth.map((plant) => plant.raft))];
  const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
  return {
    areaPercent: area.mean, areaScatterPercent: area.deviation, volumePercent: volume.mean, volumeScatterPercent: volume.deviation,
    heightMm: height.mean, heightScatterMm: height.deviation,
    visiblePercent: rafts.map((raft) => {
      const here = growing.filter((i) => truth[i]!.raft === raft);
      return 100 * (sum(here.map((i) => found[i]!.areaMm2)) / sum(here.map((i) => truth[i]!.visibleMm2)) - 1);
    }),
    falsePlants: truth.filter((plant, i) => plant.empty && found[i]!.present).length,
    missedPlants: growing.filter((i) => !found[i]!.present).length,
    labels: scene === undefined ? NaN : labelShare(scan, scene),
  };
}

function spread(values: readonly number[]): { mean: number; deviation: number } {
  const mean = values.reduce((total, value) => total + value, 0) / values.length;
  return { mean, deviation: Math.sqrt(values.reduce((total, value) => total + (value - mean) ** 2, 0) / values.length) };
}

/** Over cells that are leaf in truth and in the scan. */
function labelShare({ grid, labels: { label } }: MeasuredScan, { labels }: Pick<Scene, 'labels'>): number {
  let right = 0, both = 0;
  for (let i = 0; i < labels.length; i += 1) {
    if (labels[i]! < 0) continue;
    const x = ((i % LABEL_SIDE) + 0.5 - LABEL_SIDE / 2) * LABEL_MM, y = (Math.floor(i / LABEL_SIDE) + 0.5 - LABEL_SIDE / 2) * LABEL_MM;
    const column = Math.floor((x - grid.leftMm) / grid.cellMm), row = Math.floor((y - grid.nearMm) / grid.cellMm);
    const found = column < 0 || row < 0 || column >= grid.columns || row >= grid.rows ? -1 : label[row * grid.columns + column]!;
    if (found < 0) continue;
    both += 1;
    if (found === labels[i]) right += 1;
  }
  return right / both;
}
