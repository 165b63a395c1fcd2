import type { StationDescription } from '../../greenhouse/schema/greenhouseFile.ts';
import type { DraftStop } from './draftVisit.ts';

/** Seconds that a station works on a basin: fixed, per plant handled, and for the litres that flow. Rounded up. */
export function serviceS(station: StationDescription, stop: Pick<DraftStop, 'plants' | 'litres'>): number {
  const { fixedS, perPlantS, flowLPerMin } = station.service;
  return Math.ceil(fixedS + perPlantS * stop.plants + (flowLPerMin === undefined ? 0 : (stop.litres / flowLPerMin) * 60));
}
