import type { CropCard } from '../../greenhouse/schema/cropCard.ts';
import type { SowingHouse } from './sowingHouse.ts';
import type { SowingPlace } from './sowingProblem.ts';

/** The place of each stage: the greenhouse's nursery where the stage wants one (else glass), the glass place that is tried. */
export function placesOfStages(card: CropCard, house: SowingHouse, glass: SowingPlace): SowingPlace[] {
  const nursery = house.places.find(({ kind }) => kind === 'nursery');
  return card.stages.map(({ bay }) => (bay === 'nursery' ? nursery ?? glass : glass));
}
