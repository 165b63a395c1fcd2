import type { CropCard } from '../../greenhouse/schema/cropCard.ts';
import type { BayDescription } from '../../greenhouse/schema/greenhouseFile.ts';
import type { GreenhouseState } from '../../greenhouse/state.ts';
import { simulateBays } from '../../planning/climate/bayClimates.ts';
import { lampsByDay } from '../../planning/sowing/lampsByDay.ts';
import { curveInSeason, type SeasonCurve } from '../../planning/sowing/seasonGrowth.ts';
import type { SowingHouse } from '../../planning/sowing/sowingHouse.ts';
import { sowingPlaces } from '../../planning/sowing/sowingPlaces.ts';
import type { SowingPlace } from '../../planning/sowing/sowingProblem.ts';
import { placesOfStages } from '../../planning/sowing/placesOfStages.ts';

/** The demo greenhouse as the season test sees it: what the planner knows, the same for all seeds. */
export interface SeasonHouse {
  readonly cards: readonly CropCard[];
  readonly sowingHouse: SowingHouse;
  readonly nursery: SowingPlace;
  readonly glass: SowingPlace;
  readonly bays: { readonly nursery: BayDescription; readonly glass: BayDescription };
  /** The season's curve from the planner's growth models in a typical year; not what the lots of the test truly do. */
  readonly curveOf: (crop: string, sowDate: string) => SeasonCurve | undefined;
}

export function seasonHouse(state: GreenhouseState, fromDate: string, toDate: string): SeasonHouse {
  const file = state.file!;
  const ms = (date: string) => Date.parse(`${date}T00:00:00Z`);
  const climates = simulateBays(state, file, () => [], { fromMs: ms(fromDate), atMs: ms(fromDate), toMs: ms(toDate) });
  if (!climates.ok) throw new Error('the season has no climate');
  const places = sowingPlaces(file, (bay) => (file.bays.find(({ id }) => id === bay)!.kind === 'glass' ? 14 : 10));
  const [nursery, glass] = (['nursery', 'glass'] as const).map((kind) => places.find((place) => place.kind === kind)!) as [SowingPlace, SowingPlace];
  const sowingHouse: SowingHouse = { file, places, lampKWhOn: lampsByDay(climates.value, places) };
  const cards = Object.values(state.crops);
  const known = new Map<string, SeasonCurve | undefined>();
  const bayOf = (place: SowingPlace) => file.bays.find(({ id }) => id === place.bays[0])!;
  return {
    cards, sowingHouse, nursery, glass, bays: { nursery: bayOf(nursery), glass: bayOf(glass) },
    curveOf(crop, sowDate) {
      const key = `${crop} ${sowDate}`;
      if (known.has(key)) return known.get(key);
      const card = cards.find(({ id }) => id === crop)!;
      const curve = curveInSeason({ card, sowDate, places: placesOfStages(card, sowingHouse, glass), climates: climates.value });
      known.set(key, curve.ok ? curve.value : undefined);
      return known.get(key);
    },
  };
}
