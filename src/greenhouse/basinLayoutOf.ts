import type { BasinLayout, PlantingPosition, RaftLayout } from '../science/scan/basinLayout.ts';
import type { CropStage } from './schema/cropCard.ts';
import type { BasinType } from './schema/greenhouseFile.ts';

/** What stands in a basin as far as its layout is concerned. */
export interface Planted {
  readonly stage: Pick<CropStage, 'raftPattern'> | undefined;
  readonly plants: number;
  /** Litres in the basin over those of a full one: with less water the rafts lie deeper. 1 where nobody knows. */
  readonly fullShare?: number;
}

/**
 * Where rafts and planting positions of a basin lie: x along its length, y across, from its middle. Rafts are numbered from 1, row by
 * row from the corner of least x and y, x first; so are the positions of each raft. Rafts and patterns that no file states are those
 * nearest to square (common practice, no source).
 */
export function basinLayoutOf(type: BasinType, { stage, plants, fullShare = 1 }: Planted): BasinLayout {
  const [along, across] = raftRows(type);
  const pitch = [type.lengthMm / along, type.widthMm / across] as const;
  const sizeMm = [Math.max(50, pitch[0] - type.raftGapMm), Math.max(50, pitch[1] - type.raftGapMm)] as const;
  const pattern = stage?.raftPattern ?? patternFor(Math.ceil(plants / type.rafts), sizeMm);
  const positions = positionsOf([pattern.along, pattern.across], sizeMm);
  const rafts = Array.from({ length: type.rafts }, (_, i): RaftLayout => ({
    id: i + 1, sizeMm, positions,
    centreMm: [(i % along + 0.5) * pitch[0] - type.lengthMm / 2, (Math.floor(i / along) + 0.5) * pitch[1] - type.widthMm / 2],
  }));
  return { rimHeightMm: type.rimAboveRaftsMm + (1 - fullShare) * type.depthMm, innerMm: [type.lengthMm, type.widthMm], rafts };
}

/** Rafts along and across: as stated, else the division of their number that makes each nearest to square. */
function raftRows({ rafts, raftsAlong, lengthMm, widthMm }: BasinType): readonly [number, number] {
  if (raftsAlong !== undefined) return [raftsAlong, rafts / raftsAlong];
  const divisions = Array.from({ length: rafts }, (_, i) => i + 1).filter((along) => rafts % along === 0);
  const skew = (along: number) => Math.abs(Math.log((lengthMm / along) / (widthMm / (rafts / along))));
  const along = divisions.reduce((best, each) => (skew(each) < skew(best) ? each : best));
  return [along, rafts / along];
}

/** The pattern that takes so many plants with the fewest left over and the squarest spacing. */
function patternFor(plants: number, [sizeX, sizeY]: readonly [number, number]): { along: number; across: number } {
  let best = { along: Math.max(1, plants), across: 1 }, least = Infinity;
  for (let along = 1; along <= plants; along += 1) {
    const across = Math.ceil(plants / along);
    const fault = Math.abs(Math.log((sizeX / along) / (sizeY / across))) + (along * across - plants) / plants;
    if (fault < least) { least = fault; best = { along, across }; }
  }
  return best;
}

function positionsOf([along, across]: readonly [number, number], [sizeX, sizeY]: readonly [number, number]): PlantingPosition[] {
  return Array.from({ length: along * across }, (_, i) => ({
    id: i + 1, xMm: ((i % along + 0.5) / along - 0.5) * sizeX, yMm: ((Math.floor(i / along) + 0.5) / across - 0.5) * sizeY,
  }));
}
