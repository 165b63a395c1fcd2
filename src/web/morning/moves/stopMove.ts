import type { PlanSheet } from '../../../desk/contract.ts';

/** A stop that a person is moving: where it would be, and where the plan has it. Seconds from the start of the timeline. */
export interface StopMove {
  readonly visit: string;
  readonly basin: string;
  readonly stop: number;
  readonly station: string;
  readonly startS: number;
  readonly lengthS: number;
  readonly planned: { readonly station: string; readonly startS: number; readonly track: number };
}

const MINUTE_S = 60;

export const hasMoved = ({ station, startS, planned }: StopMove): boolean => station !== planned.station || startS !== planned.startS;

/** Later or earlier by minutes, on whole minutes of the clock. */
export const shifted = (move: StopMove, minutes: number): StopMove => ({ ...move, startS: Math.max(0, (Math.round(move.startS / MINUTE_S) + minutes) * MINUTE_S) });

/** Dragged so many seconds from where the plan has it. */
export const dragged = (move: StopMove, byS: number, station: string): StopMove => ({ ...move, station, startS: Math.max(0, Math.round((move.planned.startS + byS) / MINUTE_S) * MINUTE_S) });

/** Stations that do the same work, in the order of the timeline. */
export function stationsLike(sheet: Pick<PlanSheet, 'timeline'>, station: string): readonly string[] {
  const kind = sheet.timeline.stations.find(({ id }) => id === station)?.kind;
  return sheet.timeline.stations.filter((is) => is.kind === kind).map(({ id }) => id);
}

/** What a key does to a move: arrows along the time by a minute, five with Shift; arrows across it to the next station of the kind. Undefined: nothing. */
export function moveByKey(move: StopMove, key: string, shift: boolean, runs: 'across' | 'down', stations: readonly string[]): StopMove | undefined {
  const [back, on, before, after] = runs === 'across' ? ['ArrowLeft', 'ArrowRight', 'ArrowUp', 'ArrowDown'] : ['ArrowUp', 'ArrowDown', 'ArrowLeft', 'ArrowRight'];
  const minutes = shift ? 5 : 1;
  if (key === back) return shifted(move, -minutes);
  if (key === on) return shifted(move, minutes);
  if (key !== before && key !== after) return undefined;
  const next = stations[stations.indexOf(move.station) + (key === after ? 1 : -1)];
  return next === undefined ? move : { ...move, station: next };
}
