/**
 * The question that the planner of a shift answers: which basin goes when, with which vehicle, to which station.
 * All times are whole seconds from the start of the shift; locations are indexes into `locations`.
 */

/** Index into `ScheduleProblem.locations`. */
export type LocationIndex = number;

export interface ScheduleProblem {
  /** Names of every place a vehicle can pick up or set down: berths and station doors. */
  readonly locations: readonly string[];
  /** travelEmptyS[from][to], seconds. Not necessarily symmetric; obeys the triangle inequality or is taken as it stands. */
  readonly travelEmptyS: readonly (readonly number[])[];
  /** travelLoadedS[from][to], seconds. */
  readonly travelLoadedS: readonly (readonly number[])[];
  /** Vehicle path lengths in metres, if known; used for the last aim (fewest metres). Seconds are used where absent. */
  readonly travelM?: readonly (readonly number[])[];
  readonly stations: readonly ScheduleStation[];
  readonly vehicles: readonly ScheduleVehicle[];
  readonly crews?: readonly ScheduleCrew[];
  /** Berth locations with a limited number of places. A location that is not listed has room for any number of basins. */
  readonly berths?: readonly ScheduleBerth[];
  readonly visits: readonly ScheduleVisit[];
  /** What is done or under way when the rest of the day is planned again. */
  readonly frozen?: FrozenWork;
}

export interface TimeSpan {
  readonly fromS: number;
  readonly toS: number;
}

/**
 * One station. A basin that was set down takes a service place at once when one is free, else a waiting place; the
 * station itself brings it from the waiting place to the service place. It keeps the service place, also when the work
 * is done, until a vehicle has taken it away.
 */
export interface ScheduleStation {
  readonly id: string;
  readonly kind: string;
  readonly location: LocationIndex;
  /** Basins served at once, at least 1. */
  readonly places: number;
  /** Waiting places. null: unlimited, and a basin whose work is done waits there too and blocks nothing. */
  readonly queuePlaces: number | null;
  /** Work happens only inside [openFromS, openToS] and outside the breaks; it is not interrupted by a break. */
  readonly openFromS: number;
  readonly openToS: number;
  readonly breaks?: readonly TimeSpan[];
  /** Crew that has to stand by for the whole of each service here. */
  readonly crew?: string;
}

/** People who serve stations: at most `people` services of its stations run at once, only inside its shift. */
export interface ScheduleCrew {
  readonly id: string;
  readonly people: number;
  readonly fromS: number;
  readonly toS: number;
  readonly breaks?: readonly TimeSpan[];
}

export interface ScheduleVehicle {
  readonly id: string;
  readonly startLocation: LocationIndex;
  /** It moves only inside [availableFromS, availableToS]; the last basin is set down by then. */
  readonly availableFromS: number;
  readonly availableToS: number;
  /** Time to lift a basin, and to set it down. */
  readonly pickS: number;
  readonly dropS: number;
  readonly battery?: VehicleBattery;
}

/** Battery in seconds of driving, lifting and setting down; standing costs nothing. */
export interface VehicleBattery {
  readonly capacityS: number;
  readonly atStartS: number;
  /** The reserve that is never used. */
  readonly reserveS: number;
  readonly chargeLocation: LocationIndex;
  /** Seconds of driving gained in one second on the charger. */
  readonly gainSPerS: number;
}

/** `places` basins fit on the berth location; `takenAtStart` stand there when the shift starts, those that will leave included. */
export interface ScheduleBerth {
  readonly location: LocationIndex;
  readonly places: number;
  readonly takenAtStart: number;
}

export interface ScheduleVisit {
  readonly id: string;
  /** A basin has at most one visit in a problem. */
  readonly basin: string;
  readonly startLocation: LocationIndex;
  /** Berth after the visit. */
  readonly endLocation: LocationIndex;
  /** Other berths that will do, each with what it costs in seconds against endLocation (light, crowding, next way). */
  readonly endChoices?: readonly { readonly location: LocationIndex; readonly costS: number }[];
  /** In order; at least one. */
  readonly stops: readonly ScheduleStop[];
  /** The basin is not lifted before. */
  readonly releaseS: number;
  /** Wanted: back on its berth by then; each second later counts with the priority. */
  readonly dueS?: number;
  /** Required: back on its berth by then, else the visit is left out. */
  readonly deadlineS?: number;
  /** Weight of lateness and of being left out, greater than 0. */
  readonly priority: number;
  /** Every visit that must be made comes before any that need not. */
  readonly must: boolean;
  /** Plain words: why this visit is wanted. */
  readonly why: string;
}

export interface ScheduleStop {
  /** Any one of these will do. */
  readonly alternatives: readonly StopAlternative[];
  /** Work does not start before. */
  readonly notBeforeS?: number;
  /** Wanted end of the work; each second later counts with the priority of the visit. */
  readonly dueS?: number;
  /** Required end of the work, else the visit is left out. */
  readonly endByS?: number;
  /** Stops of other visits whose work has to be done before this basin is set down here; all in the same problem. */
  readonly after?: readonly StopReference[];
}

export interface StopAlternative {
  readonly station: string;
  readonly serviceS: number;
}

export interface StopReference {
  readonly visit: string;
  readonly stop: number;
}

/** What has begun by `nowS` stays as it is; nothing else begins before `nowS`. */
export interface FrozenWork {
  readonly nowS: number;
  /** Trips whose vehicle has set off to them, done or under way, with real or expected times. */
  readonly trips: readonly ScheduledTrip[];
  /** Stops whose work has begun or is done, with real or expected times; leaveS is set for those taken away by a frozen trip. */
  readonly stops: readonly ScheduledStop[];
  readonly charges?: readonly ScheduledCharge[];
  /** Visits of which the rest is given up (failed stop, broken basin): their basin only goes to its berth. */
  readonly givenUp?: readonly string[];
}

/** One basin carried once. */
export interface ScheduledTrip {
  readonly vehicle: string;
  readonly visit: string;
  /** 0: to the first stop; number of stops: to the berth. */
  readonly leg: number;
  readonly from: LocationIndex;
  readonly to: LocationIndex;
  /** Station that the basin is brought to; absent on the way to a berth. */
  readonly toStation?: string;
  /** Where the vehicle comes from, and when it sets off empty. */
  readonly emptyFrom: LocationIndex;
  readonly emptyDepartS: number;
  /** Lifting begins. */
  readonly pickS: number;
  /** Lifted; the place there is free. */
  readonly departS: number;
  /** Set down. */
  readonly arriveS: number;
}

/** One piece of work at a station. */
export interface ScheduledStop {
  readonly visit: string;
  readonly stop: number;
  readonly station: string;
  /** Set down. */
  readonly arriveS: number;
  readonly startS: number;
  readonly endS: number;
  /** Taken away (lifted). Absent: it stays there. */
  readonly leaveS?: number;
}

/** A vehicle charges before its next trip. */
export interface ScheduledCharge {
  readonly vehicle: string;
  readonly location: LocationIndex;
  readonly emptyFrom: LocationIndex;
  readonly emptyDepartS: number;
  readonly fromS: number;
  readonly toS: number;
}
