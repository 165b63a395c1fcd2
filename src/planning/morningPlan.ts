/** The plan of one shift: plain JSON, numbers rounded for people where it says so; the same inputs give the same plan bit for bit. */
import type { ApprovedVisit, StopPin } from '../greenhouse/events.ts';
import type { StationKind } from '../greenhouse/schema/greenhouseFile.ts';
import type { ActionPlan } from './actions/lotActions.ts';
import type { Composition } from '../science/chemistry/composition.ts';
import type { WeekView } from './week/weekView.ts';

export interface MorningPlan {
  readonly planId: string;
  readonly greenhouse: string;
  readonly name: string;
  readonly timeZone: string;
  /** UTC instant that the plan is made for. */
  readonly at: string;
  readonly date: string;
  readonly upToSequence: number;
  readonly shift: { readonly startAt: string; readonly endAt: string };
  /** One plain sentence that sums the day up. */
  readonly sentence: string;
  readonly counts: { readonly basins: number; readonly planted: number; readonly visits: number; readonly mustVisits: number; readonly leftOut: number; readonly stops: number };
  readonly needs: readonly Need[];
  /** Stops that people moved and that the rest is planned around; absent where nobody did. */
  readonly pins?: readonly StopPin[];
  readonly visits: readonly PlannedVisit[];
  /** Visits of the plan approved for this shift that are over, with what became of each stop. */
  readonly history?: readonly PlannedVisit[];
  readonly leftOut: readonly { readonly visit: string; readonly basin: string; readonly must: boolean; readonly what: string; readonly reason: string }[];
  readonly timeline: Timeline;
  readonly feeds: readonly FeedTicket[];
  /** Absent in plans that were kept before there was one. */
  readonly returns?: ReturnPlan;
  readonly basins: readonly BasinOutlook[];
  readonly lots: readonly LotOutlook[];
  readonly orders: readonly OrderOutlook[];
  /** What could be done about lots off target; absent in plans that were kept before there was one. */
  readonly actions?: ActionPlan;
  readonly risks: readonly Risk[];
  readonly account: DayAccount;
  /** Every source of solution with what is in it, in the order of greenhouse.yaml. */
  readonly tanks: readonly TankOutlook[];
  readonly waterAccount: WaterAccount;
  readonly cautions: readonly Caution[];
  /** The two weeks ahead; absent in plans that were kept before there was one. */
  readonly week?: WeekView;
  /** Light and temperature of every bay by day; absent in plans that were kept before there was one. */
  readonly season?: readonly BaySeason[];
  /** What the day's figures were computed from; FigureSource ids are used by `why` fields. */
  readonly sources: Readonly<Record<string, FigureSource>>;
}

/** Why a basin should see a station, and how badly. */
export interface Need {
  readonly basin: string;
  readonly kind: StationKind;
  readonly urgency: 'must' | 'should' | 'may';
  /** Plain sentence with numbers. */
  readonly reason: string;
  /** Date on which it becomes a must, where known. */
  readonly dueDate?: string;
  readonly why: string;
}

export interface PlannedVisit {
  readonly visit: string;
  readonly basin: string;
  readonly lot?: string;
  readonly crop?: string;
  readonly urgency: 'must' | 'should' | 'may';
  readonly what: string;
  readonly reason: string;
  readonly fromBerth: string;
  readonly toBerth: string;
  readonly stops: readonly PlannedStop[];
  readonly trips: readonly PlannedTrip[];
  readonly leavesBerthAt: string;
  readonly backAt: string;
  readonly feedTicket?: string;
  readonly weightKg: number;
  readonly approved: ApprovedVisit;
}

export interface PlannedStop {
  readonly stop: number;
  readonly kind: StationKind;
  readonly station: string;
  readonly arriveAt: string;
  readonly startAt: string;
  readonly endAt: string;
  readonly result?: 'done' | 'failed';
}

export interface PlannedTrip {
  readonly vehicle: string;
  readonly from: string;
  readonly to: string;
  readonly emptyFrom: string;
  readonly emptyDepartAt: string;
  readonly pickAt: string;
  readonly departAt: string;
  readonly arriveAt: string;
}

export interface Timeline {
  readonly startAt: string;
  readonly finishAt: string;
  /** No plan of these visits can finish earlier. */
  readonly boundAt: string;
  readonly gapPct: number;
  readonly binds: string;
  /** Each bound by name, in seconds from the start of the shift. */
  readonly bounds: Readonly<Record<string, number>>;
  /** What one more vehicle, station place or half hour would be worth today, a sentence each. Worked out after the plan, and no part of its identity; absent until then. */
  readonly worth?: readonly string[];
  readonly stations: readonly { readonly id: string; readonly title: string; readonly kind: StationKind; readonly places: number; /** People who work there; absent in older plans. */ readonly crew?: number; readonly busyShare: number }[];
  readonly vehicles: readonly { readonly id: string; readonly title: string; readonly busyShare: number; readonly emptyM: number; readonly loadedM: number }[];
}

export interface FeedTicket {
  readonly ticket: string;
  readonly basin: string;
  readonly visit?: string;
  readonly crop: string;
  readonly before: SolutionView;
  readonly drainL: number;
  readonly draws: readonly { readonly source: string; readonly title: string; readonly kind: string; readonly litres: number; readonly grams: Readonly<Record<string, number>> }[];
  readonly addedL: number;
  readonly after: SolutionView;
  readonly targetMmolPerL: Composition;
  /** Component -> [low, high] mmol/L around the roots. */
  readonly bandMmolPerL: Readonly<Record<string, readonly [number, number]>>;
  readonly cost: number;
  readonly costLowerBound: number;
  readonly status: 'within bands' | 'nearest possible';
  readonly binding: readonly string[];
  readonly violations: readonly string[];
  /** Safe order of work, one line a step, with cautions where they apply. */
  readonly steps: readonly string[];
  readonly why: string;
}

export interface SolutionView {
  readonly volumeL: number;
  readonly mmolPerL: Composition;
  readonly ecMsPerCm25: number;
  readonly pH?: number;
  readonly basis: string;
}

export interface Quantiles { readonly p05: number; readonly p25: number; readonly p50: number; readonly p75: number; readonly p95: number }

export interface BasinOutlook {
  readonly basin: string;
  readonly bay: string;
  readonly berth: string;
  readonly lot?: string;
  readonly crop?: string;
  readonly stage?: string;
  readonly plants?: number;
  readonly water?: SolutionView & { readonly levelShare: number; readonly outOfBand: readonly string[]; readonly transpirationLPerDay?: number; readonly lowLevelDate?: string };
  /** Reason why water is absent. */
  readonly waterUnknown?: string;
  readonly readyDate?: string;
  readonly freshGToday?: Quantiles;
  readonly freshGAtReady?: Quantiles;
  readonly visitsToday: readonly string[];
  readonly needs: readonly string[];
  readonly weightKg?: number;
}

/** A bay day by day: past days measured as far as there are readings, days ahead on the outlook weather. */
export interface BaySeason {
  readonly bay: string;
  readonly title: string;
  /** Light integral the lamps fill up to; absent without lamps. */
  readonly targetDliMolM2?: number;
  readonly days: readonly {
    readonly date: string;
    /** Photons outdoors, above the crop, and the lamps' part of those, mol/m2. */
    readonly outsideMol: number;
    readonly insideMol: number;
    readonly lampMol: number;
    readonly outsideC: number;
    readonly insideC: number;
    /** Coldest and warmest hour inside. */
    readonly coldestC: number;
    readonly warmestC: number;
    /** Share of its hours with a measured temperature or light. */
    readonly measuredShare: number;
  }[];
}

export interface LotOutlook {
  readonly lot: string;
  readonly crop: string;
  readonly sown: string;
  readonly placed: string;
  readonly stage: string;
  readonly basins: readonly string[];
  readonly plants: number;
  /** `freshG`: of the mean plant; `plantG`: of one plant drawn from the lot (absent in plans that were kept before there was one). `saleableShare`: above market weight and not tip-burnt. */
  readonly days: readonly { readonly date: string; readonly dryG: Quantiles; readonly freshG: Quantiles; readonly plantG?: Quantiles; readonly readyShare: number; readonly saleableShare?: number }[];
  readonly samples: readonly { readonly date: string; readonly meanFreshG: number; readonly plants: number }[];
  readonly readyDate?: { readonly early: string; readonly likely: string; readonly late: string };
  readonly alarms: readonly { readonly code: string; readonly sentence: string }[];
  readonly why: string;
}

export interface OrderOutlook {
  readonly order: string;
  readonly line: number;
  readonly customer: string;
  readonly crop: string;
  readonly units: number;
  readonly unit: string;
  readonly due: string;
  /** Chance that the line is filled in full on the day, 0..1. */
  readonly chance: number;
  readonly expectedShortUnits: number;
  readonly lots: readonly { readonly lot: string; readonly units: number }[];
  readonly status: 'delivered' | 'likely' | 'at risk' | 'short';
  readonly sentence: string;
  readonly why: string;
}

export interface Risk {
  readonly code: string;
  readonly severity: 'act today' | 'watch' | 'know';
  readonly sentence: string;
  readonly subject: string;
  readonly proposal?: string;
  /** Lot on whose page it is said what could be done. */
  readonly lot?: string;
}

/** Where the solution goes that is drained today, and why. */
export interface ReturnPlan {
  readonly routes: readonly {
    readonly basin: string;
    readonly visit: string;
    readonly litres: number;
    /** Return tank; absent: discharged. */
    readonly to: string | undefined;
    readonly title: string;
    readonly reason: string;
    /** The permit does not allow it, and by how much. */
    readonly violation?: string;
  }[];
  /** Feeds of the days ahead, discharge and what is kept, with these ways; and what no way can cost less than. */
  readonly cost: number;
  readonly costLowerBound: number;
  readonly sentence: string;
  readonly why: string;
}

export interface DayAccount {
  readonly waterL: Readonly<Record<string, number>>;
  readonly dischargedL: number;
  readonly returnedL: number;
  readonly productG: Readonly<Record<string, number>>;
  readonly lampKWh: number;
  readonly vehicleLoadedM: number;
  readonly vehicleEmptyM: number;
  readonly feedCost: number;
  readonly currency: string;
  readonly kgCo2e: number;
  readonly why: string;
}

/** A tank, pipe or stock this morning: how much is in it, of what, how that is known, where it is heading. */
export interface TankOutlook {
  readonly source: string;
  readonly title: string;
  readonly kind: 'fresh' | 'stock' | 'return' | 'acid' | 'base';
  readonly capacityL: number;
  readonly volumeL: number;
  /** One standard deviation; absent where the volume was only described. */
  readonly volumeSdL?: number;
  /** Absent where nobody knows what is in it; `reason` says why. */
  readonly mmolPerL?: Composition;
  /** One standard deviation of a concentration that was counted since the analysis, relative: the largest of the main ions. */
  readonly strengthSdShare?: number;
  readonly ecMsPerCm25?: number;
  readonly reason?: string;
  /** Instant of the analysis (or, for a stock, of the level) that the contents are counted from; absent where there is none. */
  readonly since?: string;
  /** Put in and taken out since then, L; of what is no return tank, drawn in the last day. */
  readonly inL: number;
  readonly outL: number;
  readonly basis: string;
  readonly flags: readonly { readonly at: string; readonly sentence: string; readonly likelyCause: string }[];
  /** What sodium and chloride may not exceed: the strictest crop's limits. Return tanks only. */
  readonly limits: readonly { readonly component: string; readonly mmolPerL: number; readonly crop: string }[];
  /** Where components that the crops leave behind are heading. Return tanks only. */
  readonly projections: readonly TankProjection[];
  readonly why: string;
}

export interface TankProjection {
  readonly component: string;
  readonly limitMmolPerL: number;
  /** From today on, a week apart; low and high are one standard deviation of what is known today. */
  readonly days: readonly { readonly date: string; readonly mmolPerL: number; readonly low: number; readonly high: number }[];
  /** First date on which the limit is passed unless a part is discharged; absent where not within three years. */
  readonly dischargeBy?: string;
  /** Where it levels off if nothing is discharged; absent where it does not. */
  readonly plateauMmolPerL?: number;
  /** Discharge that holds the limit from then on, L a day. */
  readonly dischargeLPerDay?: number;
  readonly sentence: string;
}

/** Water and what is dissolved in it, from place to place: `tank:ID`, `basins`, `crops` (water: transpired), `discharge`, `treatment` (iron lost to its light), `unexplained` (what readings corrected; may be negative). */
export interface AccountFlow {
  readonly from: string;
  readonly to: string;
  readonly litres: number;
  readonly mmol: Composition;
}

/** The greenhouse's water over the days before this morning, closed per component, and what today's plan adds. */
export interface WaterAccount {
  readonly from: string;
  readonly to: string;
  /** Place to its title, for every place of the flows. */
  readonly titles: Readonly<Record<string, string>>;
  readonly flows: readonly AccountFlow[];
  /** What stands in all basins and in each return tank at both ends; what was first seen without a record since counts at the start. */
  readonly contents: readonly { readonly place: string; readonly startL: number; readonly startMmol: Composition; readonly endL: number; readonly endMmol: Composition }[];
  /** Flows of today's fillings and washes, as planned. */
  readonly today: readonly AccountFlow[];
  /** Largest difference between what went in and where it is, as a share of what there is: rounding only, else something was not booked. */
  readonly closesWithin: number;
  readonly sentence: string;
  readonly why: string;
}

export interface Caution { readonly subject: string; readonly text: string }

export interface FigureSource {
  readonly title: string;
  /** Plain sentence: how it was computed. */
  readonly method: string;
  readonly model?: string;
  readonly version?: string;
  readonly inputs: readonly string[];
  readonly citations: readonly string[];
}
