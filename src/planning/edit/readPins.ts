import type { StopPin } from '../../greenhouse/events.ts';
import { accepted, refused, type Outcome, type Refusal } from '../../science/refusal.ts';
import type { ShiftDay } from '../day/shiftDay.ts';
import type { StopMove } from '../schedule/moveStop.ts';
import { shiftS, type BuiltProblem } from '../visits/buildProblem.ts';
import type { DraftVisit } from '../visits/draftVisit.ts';

/** Pins in the numbers of the scheduler. Refused where the visit is no longer asked for, the stop is behind it or the station cannot do its work. */
export function readPins(pins: readonly StopPin[], drafts: readonly DraftVisit[], { problem }: BuiltProblem, day: ShiftDay): Outcome<StopMove[]> {
  const refusals: Refusal[] = [];
  const moves = pins.flatMap((pin): StopMove[] => {
    const stop = drafts.find(({ visit }) => visit === pin.visit)?.stops.findIndex(({ number }) => number === pin.stop) ?? -1;
    const wanted = problem.visits.find(({ id }) => id === pin.visit)?.stops[stop];
    const refuse = (message: string): never[] => { refusals.push({ code: 'infeasible', severity: 'error', path: `pins.${pin.visit}`, value: pin.visit, message }); return []; };
    if (wanted === undefined) return refuse(`Stop ${pin.stop + 1} of visit ${pin.visit} is not to be made any more, so it cannot be kept at a time.`);
    if (!wanted.alternatives.some(({ station }) => station === pin.station)) return refuse(`${pin.station} cannot do the work of stop ${pin.stop + 1} of visit ${pin.visit}.`);
    return [{ visit: pin.visit, stop, station: pin.station, startS: shiftS(day, Date.parse(pin.startAt)) }];
  });
  return refusals.length > 0 ? refused(refusals) : accepted(moves);
}
