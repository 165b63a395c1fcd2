import type { CropCard } from '../../greenhouse/schema/cropCard.ts';
import { shareAbove } from '../../science/crop/massQuantiles.ts';
import { seedFor, startRandom } from '../../science/seededRandom.ts';
import type { DemoCrop } from '../demo/demoTypes.ts';
import { dryShare, growthG } from '../demo/demoGrowth.ts';

/** A lot as it truly is; the planner sees only noisy weighings of it. */
export interface SeasonLot {
  readonly id: string;
  readonly card: CropCard;
  readonly demo: DemoCrop;
  readonly sowDate: string;
  readonly plannedPlants: number;
  /** Plants that came up and stand, all basins together. */
  plants: number;
  /** -1 while in trays. */
  stage: number;
  /** Day on which the next stage is planned. */
  movesOn: string;
  basins: number;
  dryG: number;
  readonly vigour: number;
  readonly lossShare: number;
  readonly plantLogSd: number;
}

/** Truth of the season test: spreads between lots that the planner is not told (invented; cf. the defaults of crop cards). */
const TRUTH = { vigourLogSd: 0.08, germinationSd: 0.05, lossSd: 0.025, plantLogSd: [0.16, 0.26], seedlingLogSd: 0.15 } as const;

export function sowLot(seed: number, card: CropCard, demo: DemoCrop, sowing: { readonly sowDate: string; readonly seeds: number; readonly plants: number; readonly inBasinOn: string }, number: number): SeasonLot {
  const random = startRandom(seedFor(seed, `lot ${card.id} ${sowing.sowDate} ${number}`));
  const germination = Math.min(0.99, Math.max(0.3, card.sowing.germinationShare + TRUTH.germinationSd * random.normal()));
  const [narrow, wide] = TRUTH.plantLogSd;
  return {
    id: `${card.id}@${sowing.sowDate}#${number}`, card, demo, sowDate: sowing.sowDate, plannedPlants: sowing.plants,
    plants: Math.min(sowing.plants, Math.floor(sowing.seeds * germination)), stage: -1, movesOn: sowing.inBasinOn, basins: 0,
    dryG: demo.seedlingDryG * Math.exp(TRUTH.seedlingLogSd * random.normal()), vigour: Math.exp(TRUTH.vigourLogSd * random.normal()),
    lossShare: Math.min(0.4, Math.max(0, card.harvest.lossShare + TRUTH.lossSd * random.normal())), plantLogSd: narrow + (wide - narrow) * random.uniform(),
  };
}

export function growLot(lot: SeasonLot, plantsPerM2: number, dliMolM2: number): void {
  lot.dryG += growthG(lot.demo, lot.dryG, plantsPerM2, dliMolM2, lot.vigour);
}

export const freshG = (lot: SeasonLot): number => lot.dryG / dryShare(lot.dryG);

export const readyShare = (lot: SeasonLot): number => shareAbove(freshG(lot), lot.plantLogSd, lot.card.harvest.readyFreshG);

/** Whole units that one of its basins gives today. */
export const unitsOfBasin = (lot: SeasonLot): number => Math.floor(((lot.plants / lot.basins) * readyShare(lot) * (1 - lot.lossShare)) / lot.card.plantsPerUnit);
