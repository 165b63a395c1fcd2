import type { GreenhouseFile } from '../../greenhouse/schema/greenhouseFile.ts';
import { countOf, listOf, shown } from '../words/plainWords.ts';
import type { DraftStop, DraftVisit } from './draftVisit.ts';

/** What a trip does, in a few words; tanks by the titles that `file` gives them. */
export function describeVisit(draft: DraftVisit, { sources }: Pick<GreenhouseFile, 'sources'>): string {
  const titleOf = (tank: string): string => sources.find(({ id }) => id === tank)?.title ?? tank;
  const text = listOf(draft.stops.map((stop) => describeStop(stop, draft.view.basin.id, titleOf)));
  return text.charAt(0).toUpperCase() + text.slice(1);
}

function describeStop(stop: DraftStop, basin: string, titleOf: (tank: string) => string): string {
  switch (stop.kind) {
    case 'imaging': return 'image';
    case 'washing': return stop.litres < 1 ? 'wash' : `drain ${shown(stop.litres, 0)} L ${stop.effect.kind === 'washing' && stop.effect.drainTo !== undefined ? `into ${titleOf(stop.effect.drainTo)}` : 'to discharge'} and wash`;
    case 'filling': { const litres = stop.litres - (stop.feed?.drainL ?? 0); return `fill with ${shown(litres, litres < 1 ? 3 : 0)} L`; }
    case 'harvest': return `harvest ${countOf(stop.plants, 'plant')}`;
    case 'transplanting': return stop.move!.fromBasin === basin
      ? `move ${countOf(stop.plants, 'plant')} on to ${listOf(stop.move!.targets.map((target) => target.basin))}`
      : stop.move!.fromBasin === undefined ? `plant ${countOf(stop.plants, 'seedling')} of ${stop.move!.lot} from their trays` : `plant ${countOf(stop.plants, 'plant')} from ${stop.move!.fromBasin}`;
  }
}
