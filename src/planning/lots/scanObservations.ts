import type { GreenhouseState } from '../../greenhouse/state.ts';
import type { MeanObservation } from '../../science/crop/lotForecast.ts';
import { localDate } from '../day/shiftDay.ts';

/** What the mean of one basin may differ from the mean of its lot, as a share (own judgement, no source). */
const BASIN_SD = 0.05;
/** What the filter takes as the error of a mean. */
const SD_RANGE = [0.01, 2] as const;

/**
 * The mean mass that scans saw, by lot, oldest first. What is common to the masses of all scans (the same weighed plants, the same figure of
 * the crop card) does not average out over scans: its variance is multiplied by their number, so that together they say as much as one.
 */
export function scanObservations(state: GreenhouseState): Map<string, MeanObservation[]> {
  const timeZone = state.file?.location.timeZone ?? 'UTC';
  const notes = Object.values(state.basins).flatMap(({ scans }) => scans).filter(({ mean }) => mean !== undefined && mean.freshG > 0).sort((a, b) => (a.takenAt < b.takenAt ? -1 : 1));
  const byLot = new Map<string, typeof notes>();
  for (const note of notes) byLot.set(note.lot, [...byLot.get(note.lot) ?? [], note]);
  return new Map([...byLot].map(([lot, scans]) => [lot, scans.map(({ basin, scan, takenAt, mean }): MeanObservation => {
    const { freshG, commonLnSd, ownLnSd } = mean!;
    const sd = Math.hypot(commonLnSd * Math.sqrt(scans.length), ownLnSd, BASIN_SD);
    return { date: localDate(Date.parse(takenAt), timeZone), quantity: 'freshG', mean: freshG, relativeSd: Math.min(SD_RANGE[1], Math.max(SD_RANGE[0], sd)), from: `scan ${scan} of basin ${basin}` };
  })]));
}
