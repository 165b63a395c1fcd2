import type { CropCard } from '../../greenhouse/schema/cropCard.ts';
import { cropGrowthOf } from '../../science/crop/cropGrowths.ts';
import type { CropGrowth } from '../../science/crop/lotForecast.ts';

/** A crop card as the growth models take it. */
export const growthOfCard = (card: CropCard): CropGrowth => cropGrowthOf({
  crop: card.id, kind: card.kind, cultivar: card.cultivar, modelId: card.growth.model,
  parameters: Object.fromEntries(Object.entries(card.growth.parameters).map(([name, { value }]) => [name, value])),
  seedlingDryMg: card.growth.seedlingDryMg, seedlingSpread: card.growth.seedlingSpread,
  readyFreshG: card.harvest.readyFreshG, readyShare: card.harvest.readyShare,
  ...(card.tipBurn === undefined ? {} : { tipBurn: card.tipBurn }),
});
