import type { GreenhouseState } from '../../greenhouse/state.ts';
import type { MeanObservation } from '../../science/crop/lotForecast.ts';
import { observeScans } from '../../science/crop/observeScans.ts';
import { localDate } from '../day/shiftDay.ts';

/**
 * The mean mass that scans saw, by lot, oldest first. What is common to the masses of all scans (the same weighed plants, the same figure of
 * the crop card) is passed on as the error that all of them repeat: it does not average out over scans, and plants cut and weighed correct it.
 */
export function scanObservations(state: GreenhouseState): Map<string, MeanObservation[]> {
  const timeZone = state.file?.location.timeZone ?? 'UTC';
  const notes = Object.values(state.basins).flatMap(({ scans }) => scans).filter(({ mean }) => mean !== undefined && mean.freshG > 0).sort((a, b) => (a.takenAt < b.takenAt ? -1 : 1));
  const byLot = new Map<string, typeof notes>();
  for (const note of notes) byLot.set(note.lot, [...byLot.get(note.lot) ?? [], note]);
  return new Map([...byLot].map(([lot, scans]) => [lot, scans.map(({ basin, scan, takenAt, mean }): MeanObservation => {
    const { freshG, commonLnSd, ownLnSd } = mean!;
    const basinsOfLot = Object.values(state.basins).filter(({ planting }) => planting?.lot === lot).length;
    const seen = observeScans({ date: localDate(Date.parse(takenAt), timeZone), quantity: 'freshG', basins: [{ mean: freshG, ownLogSd: ownLnSd, plants: 1 }], basinsOfLot, commonLogSd: commonLnSd })!;
    return { ...seen, from: `scan ${scan} of basin ${basin}` };
  })]));
}
