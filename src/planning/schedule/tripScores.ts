/** In which order trips are laid out by construction: what draws a trip forward and what puts it off. */
import type { DayModel, StationModel } from './dayModel.ts';
import { UNKNOWN } from './dayModel.ts';
import type { SeededRandom } from './seededRandom.ts';
import type { TripDecoder } from './tripDecoder.ts';

/** A smaller score comes first; called with the trip as the decoder's candidate and the trips laid out so far. */
export type TripScore = (decoder: TripDecoder, made: readonly number[]) => number;

/** Seconds that a trip is put off for each second (or once, where it says so). */
export interface DispatchWeights {
  /** Empty way to the basin. */
  readonly empty: number;
  /** Time that the vehicle would wait for the basin or for room at its goal. */
  readonly idle: number;
  /** Time that the basin would wait for work, at the busiest kind of station and at one with nothing to do. */
  readonly waitBusy: number;
  readonly waitFree: number;
  /** Time that the busiest kind of station would stand still before it comes (drawn forward). */
  readonly starve: number;
  /** Once, if others wait behind it at the busiest kind of station, and if it stands there at all (drawn forward). */
  readonly clear: number;
  readonly leave: number;
  /** Once, if it goes home (drawn forward). */
  readonly home: number;
  /** Work of the visit that remains after this trip (drawn forward). */
  readonly tail: number;
  /** Slack to the due time or the deadline. */
  readonly slack: number;
  /** Per unit of priority (drawn forward); visits that must be made count twice. */
  readonly priority: number;
}

/**
 * Weights to begin with. The first four were found by search on invented floors of 600 and 400 basins with vehicles and stations
 * both full, with few and with any number of waiting places, none of them the one that is measured; the last two lean on due times.
 */
export const FIRST_WEIGHTS: readonly DispatchWeights[] = [
  { empty: 0.445, idle: 0.79, waitBusy: 0.135, waitFree: 0.2, starve: 0.126, clear: 32.6, leave: 14.5, home: 5.5, tail: 0, slack: 0.0085, priority: 0 },
  { empty: 0.3, idle: 0.38, waitBusy: 0.084, waitFree: 0.25, starve: 0.095, clear: 35, leave: 8.6, home: 8.7, tail: 0, slack: 0, priority: 0 },
  { empty: 0.21, idle: 0.045, waitBusy: 0.13, waitFree: 1.26, starve: 0.011, clear: 82, leave: 3.6, home: 2.5, tail: 0.26, slack: 0, priority: 0 },
  { empty: 1.2, idle: 0.06, waitBusy: 0.6, waitFree: 0.17, starve: 0.4, clear: 10, leave: 25, home: 7, tail: 0, slack: 0.02, priority: 0 },
  { empty: 1, idle: 0.2, waitBusy: 0.5, waitFree: 0.5, starve: 0, clear: 300, leave: 0, home: 0, tail: 0.1, slack: 0.1, priority: 0 },
  { empty: 0.5, idle: 0, waitBusy: 1, waitFree: 1, starve: 0, clear: 600, leave: 0, home: 0, tail: 0.3, slack: 0.5, priority: 60 },
];

const LARGEST: DispatchWeights = {
  empty: 2, idle: 1, waitBusy: 1.5, waitFree: 1.5, starve: 1, clear: 300, leave: 100, home: 60, tail: 0.3, slack: 0.3, priority: 30,
};

/** Each weight a little more or less; now and then one anew. */
export function varyWeights(weights: DispatchWeights, random: SeededRandom): DispatchWeights {
  const varied = { ...weights } as Record<keyof DispatchWeights, number>;
  for (const key of Object.keys(LARGEST) as (keyof DispatchWeights)[]) {
    varied[key] = weights[key] * (0.6 + 0.8 * random.next());
    if (random.below(12) === 0) varied[key] = 0.5 * LARGEST[key] * random.next();
  }
  return varied;
}

/** Events in order of time, drawn forward or put off by the weights. */
export function scoreByWeights(model: DayModel, weights: DispatchWeights): TripScore {
  const tails = remainingWork(model);
  const shares = loadShares(model);
  return (decoder) => {
    const { candidate: c, floor } = decoder;
    const { state, layout } = floor;
    const idle = c.pickS - (state[layout.vehicleFree + c.vehicle] as number) - c.emptyS;
    let score = c.pickS + weights.empty * c.emptyS + weights.idle * idle;
    if (c.station < 0) score -= weights.home;
    else {
      const share = shares[c.station] as number;
      const wait = c.guessS - floor.serviceS(c.leg, c.station) - c.arriveS;
      if (wait > 0) score += wait * (weights.waitBusy * share * share + weights.waitFree * (1 - share));
      else score += wait * weights.starve * share ** 4;
    }
    const from = state[layout.station + c.visit] as number;
    if (from >= 0) {
      const share = shares[from] as number;
      score -= weights.leave * share;
      if ((state[layout.waitingCount + from] as number) > 0) score -= weights.clear * share ** 4;
    }
    return score + scoreUrgency(model, weights, decoder, tails[c.leg] as number);
  };
}

function scoreUrgency(model: DayModel, weights: DispatchWeights, { candidate: c }: TripDecoder, tailS: number): number {
  const limitS = Math.min(model.dueS[c.visit] as number, model.deadlineS[c.visit] as number);
  const slackS = Math.min(MOST_SLACK_S, limitS - c.arriveS - tailS);
  const priority = (model.priority[c.visit] as number) * (1 + (model.must[c.visit] as number));
  return weights.slack * slackS - weights.tail * tailS - weights.priority * priority;
}

const MOST_SLACK_S = 4 * 3600;

/** For each leg the least work of the visit from there on. */
function remainingWork(model: DayModel): Int32Array {
  const tails = new Int32Array(model.legCount);
  for (let v = 0; v < model.visitCount; v++) {
    let tail = 0;
    for (let t = (model.legBase[v + 1] as number) - 2; t >= (model.legBase[v] as number); t--) {
      let service = UNKNOWN;
      for (let a = model.altBase[t] as number; a < (model.altBase[t + 1] as number); a++) service = Math.min(service, model.altServiceS[a] as number);
      tail += service;
      tails[t] = tail;
    }
  }
  return tails;
}

/** Load of each station's kind per place, as a share of the largest. */
function loadShares(model: DayModel): number[] {
  const load = new Map<string, number>();
  const places = new Map<string, number>();
  for (const station of model.stations) places.set(station.kind, (places.get(station.kind) ?? 0) + station.places);
  for (let t = 0; t < model.legCount; t++) {
    const a = model.altBase[t] as number;
    if (a === model.altBase[t + 1]) continue;
    const { kind } = model.stations[model.altStation[a] as number] as StationModel;
    load.set(kind, (load.get(kind) ?? 0) + (model.altServiceS[a] as number) / (places.get(kind) as number));
  }
  const most = Math.max(1, ...load.values());
  return model.stations.map((station) => (load.get(station.kind) ?? 0) / most);
}
