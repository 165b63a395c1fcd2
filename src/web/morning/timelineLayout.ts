import type { PlanSheet, StopOutcomeView } from '../../desk/contract.ts';

export interface TimelineLane { readonly id: string; readonly title: string; readonly kind: 'station' | 'vehicle'; readonly note: string; readonly tracks: number }

export interface TimelineBar {
  readonly visit: string;
  readonly basin: string;
  readonly lane: string;
  readonly track: number;
  /** Seconds from the start of the timeline. */
  readonly startS: number;
  readonly endS: number;
  readonly standing: 'must' | 'planned' | 'done' | 'failed';
  readonly words: string;
}

/** Empty travel of a vehicle, drawn as a thin line. */
export interface TimelineTrace { readonly lane: string; readonly startS: number; readonly endS: number }

export interface TimelineLayout {
  readonly lanes: readonly TimelineLane[];
  readonly bars: readonly TimelineBar[];
  readonly traces: readonly TimelineTrace[];
  readonly lengthS: number;
  readonly boundS: number;
  readonly finishS: number;
}

/** Places each stop in the lane of its station and each loaded trip in the lane of its vehicle; stations with several places get a track for each. */
export function layTimeline(sheet: PlanSheet, outcomes: Readonly<Record<string, StopOutcomeView>>): TimelineLayout {
  const { timeline } = sheet;
  const zero = Date.parse(timeline.startAt);
  const seconds = (at: string): number => (Date.parse(at) - zero) / 1000;
  const stationBars = onTracks(sheet.visits.flatMap((visit) => visit.stops.map((stop) => ({
    visit: visit.visit, basin: visit.basin, lane: stop.station, startS: seconds(stop.startAt), endS: seconds(stop.endAt),
    standing: standingOf(outcomes[`${visit.visit}/${stop.stop}`]?.result ?? stop.result, visit.urgency),
    words: `${visit.basin}: ${stop.kind}`,
  }))));
  const trips = sheet.visits.flatMap((visit) => visit.trips.map((trip) => ({ visit, trip })));
  const vehicleBars = trips.map(({ visit, trip }): TimelineBar => ({
    visit: visit.visit, basin: visit.basin, lane: trip.vehicle, track: 0, startS: seconds(trip.pickAt), endS: seconds(trip.arriveAt),
    standing: visit.urgency === 'must' ? 'must' : 'planned', words: `${visit.basin}: from ${trip.from} to ${trip.to}`,
  }));
  const bars = [...stationBars, ...vehicleBars];
  const finishS = seconds(timeline.finishAt);
  return {
    lanes: lanesOf(sheet, stationBars), bars, finishS, boundS: seconds(timeline.boundAt),
    traces: trips.map(({ trip }) => ({ lane: trip.vehicle, startS: seconds(trip.emptyDepartAt), endS: seconds(trip.pickAt) })),
    lengthS: Math.max(finishS, ...bars.map((bar) => bar.endS), 3600),
  };
}

function lanesOf({ timeline }: PlanSheet, bars: readonly TimelineBar[]): TimelineLane[] {
  const used = (lane: string): number => Math.max(0, ...bars.filter((bar) => bar.lane === lane).map((bar) => bar.track + 1));
  const busy = (share: number): string => `${Math.round(share * 100)} % busy`;
  return [
    ...timeline.stations.map((is) => ({ id: is.id, title: is.title, kind: 'station' as const, note: busy(is.busyShare), tracks: Math.max(1, used(is.id)) })),
    ...timeline.vehicles.map((is) => ({ id: is.id, title: is.title, kind: 'vehicle' as const, note: busy(is.busyShare), tracks: 1 })),
  ];
}

function onTracks(bars: readonly Omit<TimelineBar, 'track'>[]): TimelineBar[] {
  const freeAt = new Map<string, number[]>();
  return [...bars].sort((a, b) => a.startS - b.startS || (a.visit < b.visit ? -1 : 1)).map((bar) => {
    const tracks = freeAt.get(bar.lane) ?? [];
    const free = tracks.findIndex((until) => until <= bar.startS + 0.5);
    const track = free === -1 ? tracks.length : free;
    tracks[track] = bar.endS;
    freeAt.set(bar.lane, tracks);
    return { ...bar, track };
  });
}

function standingOf(result: 'done' | 'failed' | undefined, urgency: string): TimelineBar['standing'] {
  if (result !== undefined) return result;
  return urgency === 'must' ? 'must' : 'planned';
}

/** The part of a timeline between two moments, its seconds counted from the first; bars that reach over an end are cut there. */
export function sliceTimeline(layout: TimelineLayout, fromS: number, toS: number): TimelineLayout {
  const cut = <T extends { readonly startS: number; readonly endS: number }>(span: T): T[] =>
    (span.endS <= fromS || span.startS >= toS ? [] : [{ ...span, startS: Math.max(0, span.startS - fromS), endS: Math.min(toS, span.endS) - fromS }]);
  return { ...layout, bars: layout.bars.flatMap(cut), traces: layout.traces.flatMap(cut), lengthS: toS - fromS, boundS: layout.boundS - fromS, finishS: layout.finishS - fromS };
}
