import type { PlanSheet, StopOutcomeView } from '../../desk/contract.ts';

export interface TimelineLane { readonly id: string; readonly title: string; readonly kind: 'station' | 'crew' | 'vehicle'; readonly note: string; readonly tracks: number }

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
  /** Number of the stop within its visit; absent for ways of vehicles. */
  readonly stop?: number;
}

/** Empty travel of a vehicle, drawn as a thin line. */
export interface TimelineTrace { readonly lane: string; readonly startS: number; readonly endS: number }

/** How many people are at work at once. */
export interface TimelineCount { readonly lane: string; readonly startS: number; readonly endS: number; readonly people: number }

export interface TimelineLayout {
  readonly lanes: readonly TimelineLane[];
  readonly bars: readonly TimelineBar[];
  readonly traces: readonly TimelineTrace[];
  readonly counts: readonly TimelineCount[];
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
    words: `${visit.basin}: ${stop.kind}`, stop: stop.stop,
  }))));
  const trips = sheet.visits.flatMap((visit) => visit.trips.map((trip) => ({ visit, trip })));
  const vehicleBars = trips.map(({ visit, trip }): TimelineBar => ({
    visit: visit.visit, basin: visit.basin, lane: trip.vehicle, track: 0, startS: seconds(trip.pickAt), endS: seconds(trip.arriveAt),
    standing: visit.urgency === 'must' ? 'must' : 'planned', words: `${visit.basin}: from ${trip.from} to ${trip.to}`,
  }));
  const bars = [...stationBars, ...vehicleBars];
  const finishS = seconds(timeline.finishAt);
  return {
    lanes: lanesOf(sheet, stationBars), bars, counts: countPeople(sheet, stationBars), finishS, boundS: seconds(timeline.boundAt),
    traces: trips.map(({ trip }) => ({ lane: trip.vehicle, startS: seconds(trip.emptyDepartAt), endS: seconds(trip.pickAt) })),
    lengthS: Math.max(finishS, ...bars.map((bar) => bar.endS), 3600),
  };
}

function lanesOf({ timeline }: PlanSheet, bars: readonly TimelineBar[]): TimelineLane[] {
  const used = (lane: string): number => Math.max(0, ...bars.filter((bar) => bar.lane === lane).map((bar) => bar.track + 1));
  const busy = (share: number): string => `${Math.round(share * 100)} % busy`;
  return [
    ...timeline.stations.map((is) => ({ id: is.id, title: is.title, kind: 'station' as const, note: busy(is.busyShare), tracks: Math.max(1, used(is.id)) })),
    ...(timeline.stations.some(({ crew = 0 }) => crew > 0) ? [{ id: CREW_LANE, title: 'People', kind: 'crew' as const, note: `at work, of ${timeline.stations.reduce((sum, { crew = 0 }) => sum + crew, 0)}`, tracks: 1 }] : []),
    ...timeline.vehicles.map((is) => ({ id: is.id, title: is.title, kind: 'vehicle' as const, note: busy(is.busyShare), tracks: 1 })),
  ];
}

const CREW_LANE = 'people-at-work';

/** The crews of all stations that serve a basin at a moment, over the day. */
function countPeople({ timeline }: PlanSheet, bars: readonly TimelineBar[]): TimelineCount[] {
  const edges = timeline.stations.flatMap(({ id, crew = 0 }) => (crew === 0 ? [] : spansOf(bars.filter(({ lane }) => lane === id)).flatMap(({ startS, endS }) => [{ atS: startS, change: crew }, { atS: endS, change: -crew }]))).sort((a, b) => a.atS - b.atS || a.change - b.change);
  let people = 0;
  return edges.flatMap(({ atS, change }, i): TimelineCount[] => {
    people += change;
    const endS = edges[i + 1]?.atS ?? atS;
    return people === 0 || endS <= atS ? [] : [{ lane: CREW_LANE, startS: atS, endS, people }];
  });
}

/** Spans in which at least one of the bars lasts. */
function spansOf(bars: readonly TimelineBar[]): { startS: number; endS: number }[] {
  const spans: { startS: number; endS: number }[] = [];
  for (const { startS, endS } of [...bars].sort((a, b) => a.startS - b.startS)) {
    const last = spans.at(-1);
    if (last !== undefined && startS <= last.endS) last.endS = Math.max(last.endS, endS);
    else spans.push({ startS, endS });
  }
  return spans;
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
  return { ...layout, bars: layout.bars.flatMap(cut), traces: layout.traces.flatMap(cut), counts: layout.counts.flatMap(cut), lengthS: toS - fromS, boundS: layout.boundS - fromS, finishS: layout.finishS - fromS };
}
