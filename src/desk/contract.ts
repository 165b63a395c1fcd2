/**
 * What the desk and its pages say to each other: types only. The pages import nothing else of the house.
 * Instants are UTC, ISO 8601 with Z; dates are calendar dates of the greenhouse; units stand in names.
 */
import type { Role, StationKind } from '../greenhouse/schema/greenhouseFile.ts';
import type {
  BasinOutlook, FeedTicket, FigureSource, LotOutlook, MorningPlan, Need, PlannedVisit, ReturnPlan, TankOutlook, WaterAccount,
} from '../planning/morningPlan.ts';
import type { TriedPin } from '../planning/edit/tryPin.ts';
import type { ConcentrateRecipe } from '../planning/water/recipes/concentrateRecipe.ts';
import type { TankSheet } from '../planning/water/recipes/tankSheet.ts';
import type { SowingChanges } from '../planning/sowing/compareSowing.ts';
import type { SowingPlan } from '../planning/sowing/sowingPlan.ts';
import type { WeekView } from '../planning/week/weekView.ts';
import type { Refusal } from '../science/refusal.ts';
import type { ScanJob } from './imagingContract.ts';

export type * from './cropContract.ts';
export type * from './imagingContract.ts';
export type { Role, StationKind } from '../greenhouse/schema/greenhouseFile.ts';
export type { ActionId } from '../greenhouse/actionEvents.ts';
export type { ActionCandidate, ActionCost, LookWorth, LotActions } from '../planning/actions/lotActions.ts';
export type {
  AccountFlow, BasinOutlook, BaySeason, Caution, DayAccount, FeedTicket, FigureSource, LotOutlook, Need, OrderOutlook, PlannedStop, PlannedTrip,
  Quantiles, ReturnPlan, Risk, SolutionView, TankOutlook, TankProjection, Timeline, WaterAccount,
} from '../planning/morningPlan.ts';
export type { ConcentrateRecipe } from '../planning/water/recipes/concentrateRecipe.ts';
export type { SheetStep, TankSheet } from '../planning/water/recipes/tankSheet.ts';
export type { PlaceByWeek, Sowing, SowingPlan } from '../planning/sowing/sowingPlan.ts';
export type { WeekResource, WeekView, WeekVisit } from '../planning/week/weekView.ts';
export type { ExpectedMass, PlantMark, ScoreClass } from '../greenhouse/scanEvents.ts';
export type { Refusal } from '../science/refusal.ts';
export type { ScanQuality } from '../science/scan/scanResult.ts';
export type { WatchReason } from '../science/scan/watch/watchPlants.ts';

/** The part of a plan that the floor works from; basins, lots, orders, tanks and sources have endpoints of their own. */
export type PlanSheet = Omit<MorningPlan, 'basins' | 'lots' | 'orders' | 'needs' | 'sources' | 'visits' | 'tanks' | 'waterAccount' | 'week' | 'actions' | 'season'> & { readonly visits: readonly SheetVisit[] };
/** A visit as the floor reads it; the part that the journal keeps when it is approved stays at the desk. */
export type SheetVisit = Omit<PlannedVisit, 'approved'>;

/** What planning is doing at this moment. */
export type PlanningStatus =
  | { readonly phase: 'ready'; readonly tookMs?: number }
  | { readonly phase: 'planning'; readonly step: string; readonly share: number; readonly startedAt: string }
  | { readonly phase: 'refused'; readonly refusals: readonly Refusal[] }
  | { readonly phase: 'failed'; readonly fault: FaultAnswer };

export interface PersonView { readonly id: string; readonly name: string; readonly role: Role; readonly mayApprove: boolean; readonly mayMark: boolean; readonly mayScore: boolean }

/** The plan that a person approved: the floor works to it until another one is approved. */
export interface PlanInForce {
  readonly sheet: PlanSheet;
  readonly approvedBy: string;
  readonly approvedAt: string;
  /** Key: visit/stop. */
  readonly outcomes: Readonly<Record<string, StopOutcomeView>>;
  /** Stops of this plan that nobody has marked yet. */
  readonly openStops: number;
}

export interface StopOutcomeView { readonly result: 'done' | 'failed'; readonly at: string; readonly by: string; readonly reason?: string }

/** A computed plan that nobody has approved yet. */
export interface PlanProposal {
  readonly sheet: PlanSheet;
  readonly madeAt: string;
  /** Why it was computed, in words: "the desk was opened", "stop 1 of F-B017 failed". */
  readonly because: string;
  /** How it differs from the plan in force, or from `before`; absent where there is neither. */
  readonly changes?: PlanChanges;
  /** The plan as it was before the first stop was moved, where none is in force. */
  readonly before?: PlanSheet;
}

export interface PlanChanges {
  readonly added: readonly string[];
  readonly dropped: readonly string[];
  readonly moved: readonly { readonly visit: string; readonly fromAt: string; readonly toAt: string }[];
  readonly sentence: string;
}

/** GET /api/plan */
export interface PlanAnswer {
  readonly greenhouse: { readonly id: string; readonly name: string; readonly timeZone: string };
  /** What ids of crops, products, sources, stations and vehicles are called. */
  readonly titles: Readonly<Record<string, string>>;
  /** The desk's clock when it answered. */
  readonly nowAt: string;
  readonly status: PlanningStatus;
  readonly inForce?: PlanInForce;
  readonly proposal?: PlanProposal;
}

/** POST /api/plan/replan */
export interface ReplanRequest { readonly by: string }
/** POST /api/plan/try: what comes of putting one stop elsewhere while the rest stays; changes nothing. */
export interface TryRequest { readonly planId: string; readonly visit: string; readonly stop: number; readonly station: string; readonly startAt: string }
/** The validator's answer. `tookMs`: time that it took, at the desk. */
export type TryAnswer = TriedPin & { readonly tookMs: number };
/** POST /api/plan/pins: keep the stop there and plan the rest around it. */
export type PinRequest = TryRequest & { readonly by: string };
/** POST /api/plan/pins/release: plan again without it. */
export interface ReleaseRequest { readonly by: string; readonly visit: string; readonly stop: number }
/** POST /api/plan/approve */
export interface ApproveRequest { readonly planId: string; readonly by: string }
/** POST /api/stops/:planId/:visit/:stop */
export type MarkStopRequest =
  | { readonly result: 'done'; readonly by: string; readonly actual?: { readonly volumeL?: number; readonly freshKg?: number; readonly plants?: number; readonly note?: string } }
  | { readonly result: 'failed'; readonly by: string; readonly reason: string };
/** POST /api/stops/:planId/:visit/:stop/correct: it was marked wrongly; the mark stays in the journal. */
export interface CorrectStopRequest { readonly by: string; readonly now: 'done' | 'failed' | 'open'; readonly reason: string }
/** The answer to each of them: what went to the journal. */
export interface AcceptedAnswer { readonly accepted: true; readonly sequence: number; readonly warnings: readonly Refusal[] }

/** GET /api/people */
export interface PeopleAnswer { readonly people: readonly PersonView[] }

/** GET /api/floor */
export interface FloorAnswer {
  readonly boundsM: BoundsM;
  readonly bays: readonly { readonly id: string; readonly title: string; readonly kind: 'nursery' | 'glass'; readonly boundsM: BoundsM; readonly basins: number; readonly planted: number }[];
  readonly lanes: readonly { readonly fromM: PointM; readonly toM: PointM; readonly oneWay: boolean }[];
  readonly basins: readonly FloorBasin[];
  readonly freeBerths: readonly { readonly id: string; readonly atM: PointM; readonly sizeM: PointM }[];
  readonly stations: readonly { readonly id: string; readonly title: string; readonly kind: StationKind; readonly places: number; readonly atM: PointM; readonly stopsToday: number }[];
  readonly vehicles: readonly { readonly id: string; readonly title: string; readonly atM: PointM }[];
}

/** A place on the drawn floor: x to the east, y to the south. */
export type PointM = readonly [xM: number, yM: number];
export interface BoundsM { readonly left: number; readonly top: number; readonly right: number; readonly bottom: number }
export type BasinStanding = 'no plants' | 'on track' | 'water out of band' | 'ready to harvest' | 'must be seen today' | 'water unknown';

export interface FloorBasin {
  readonly basin: string;
  readonly bay: string;
  readonly berth: string;
  /** Middle of the basin. */
  readonly atM: PointM;
  /** Extent in x and y. */
  readonly sizeM: PointM;
  readonly crop?: string;
  readonly stage?: string;
  readonly lot?: string;
  readonly standing: BasinStanding;
  readonly needs: readonly { readonly kind: StationKind; readonly urgency: Need['urgency'] }[];
  readonly readyDate?: string;
  readonly visitsToday: readonly string[];
}

/** GET /api/basins/:id */
export interface BasinAnswer {
  readonly date: string;
  readonly bayTitle: string;
  readonly outlook: BasinOutlook;
  readonly dimensions: { readonly lengthMm: number; readonly widthMm: number; readonly depthMm: number; readonly fullL: number; readonly rafts: number };
  readonly cropTitle?: string;
  readonly cultivar?: string;
  readonly stageTitle?: string;
  readonly readyFreshG?: number;
  readonly latestFreshG?: number;
  readonly lot?: LotOutlook;
  readonly needs: readonly Need[];
  readonly visits: readonly SheetVisit[];
  readonly bands: readonly WaterBand[];
  readonly readings: readonly ReadingRange[];
  readonly history: readonly JournalLine[];
}

/** One property of the water against what it should be. A value that nobody knows is absent, with the reason. */
export interface WaterBand {
  readonly name: string;
  readonly symbol: string;
  readonly unit: string;
  readonly low: number;
  readonly high: number;
  readonly target?: number;
  readonly value?: number;
  readonly absentBecause?: string;
}

/** What an instrument said of this place over the last days. */
export interface ReadingRange {
  readonly quantity: string;
  readonly title: string;
  readonly unit: string;
  readonly count: number;
  readonly least: number;
  readonly most: number;
  readonly last: number;
  readonly lastAt: string;
  readonly points: readonly { readonly at: string; readonly value: number }[];
}

/** GET /api/sowing */
export interface SowingAnswer { readonly plan: SowingPlan; readonly crops: readonly { readonly id: string; readonly title: string; readonly unit: string }[]; readonly lots: readonly string[]; readonly trays: readonly TrayView[] }
/** A lot in trays; `due`: the day on which its seedlings are to come into basins. */
export interface TrayView { readonly lot: string; readonly crop: string; readonly cropTitle: string; readonly sown: string; readonly seeds: number; readonly plants: number; readonly due: string }
/** POST /api/sowing/lots: seeds were sown. POST /api/sowing/lots/:lot/withdraw: they come to nothing. Both answer with AcceptedAnswer. */
export interface SownRequest { readonly lot: string; readonly crop: string; readonly sown: string; readonly seeds: number; readonly plants: number; readonly by: string }
export interface WithdrawRequest { readonly reason: string; readonly by: string }
/** GET /api/sowing/with-order?crop=&units=&due= and GET /api/sowing/without-lot?lot= */
export type SowingChangesAnswer = SowingChanges;

/** GET /api/water */
export interface WaterAnswer {
  readonly date: string;
  readonly currency: string;
  /** Water today in one plain sentence. */
  readonly sentence: string;
  readonly tanks: readonly TankView[];
  readonly feeds: readonly WaterFeed[];
  /** Where the solution goes that leaves basins today; absent without a plan. */
  readonly returns?: ReturnPlan;
  /** Absent until a plan has it. */
  readonly account?: WaterAccount;
  /** What dissolved components are called, in the order in which they are shown. */
  readonly components: readonly ComponentName[];
  /** Key of the source of the day's sums. */
  readonly why: string;
}

/** A tank as planning sees it, with the pH that a laboratory or probe last measured. */
export interface TankView extends TankOutlook {
  readonly pH?: { readonly value: number; readonly at: string; readonly basis: string };
  /** What it is made of, grams a litre; absent for waters. */
  readonly gramsPerL?: readonly { readonly product: string; readonly title: string; readonly gramsPerL: number }[];
  /** Drawn from it and put into it today, as planned. */
  readonly drawnTodayL: number;
  readonly putInTodayL: number;
  /** Hard limit for one filling. */
  readonly perBasinMaxL?: number;
  /** What the solution goes through before a basin, with its figures; `held`: only a test is waited for. */
  readonly treatment?: { readonly words: string; readonly held: boolean };
}

export interface ComponentName {
  readonly id: string;
  /** Plain word: "nitrate". */
  readonly name: string;
  /** The element in which amounts are weighed: "N". */
  readonly element: string;
  /** What the switch of the balance says: "N-NO₃". */
  readonly label: string;
  readonly gPerMol: number;
  readonly trace: boolean;
}

export interface WaterFeed extends Pick<FeedTicket, 'ticket' | 'basin' | 'crop' | 'drainL' | 'draws' | 'addedL' | 'before' | 'after' | 'status' | 'binding' | 'violations' | 'cost' | 'costLowerBound' | 'why'> {
  readonly cropTitle: string;
  /** When its filling begins; absent where it is not on the timetable. */
  readonly startAt?: string;
}

/** GET /api/water/sheets */
export interface SheetsAnswer {
  readonly date: string;
  readonly greenhouse: string;
  readonly waterTitle: string;
  readonly waterBasis: string;
  readonly cautions: readonly string[];
  readonly sheets: readonly TankSheet[];
  /** What concentrates may be asked for. */
  readonly choices: {
    readonly crops: readonly { readonly id: string; readonly title: string }[];
    readonly waters: readonly { readonly id: string; readonly title: string }[];
  };
}

/** GET /api/water/recipe?crop=&table=&water=&factor=&tankL=&moves= */
export interface RecipeAnswer {
  readonly date: string;
  readonly greenhouse: string;
  readonly currency: string;
  readonly factor: number;
  readonly tankL: number;
  readonly coldestC: number;
  readonly cautions: readonly string[];
  readonly components: readonly ComponentName[];
  readonly recipe: ConcentrateRecipe;
}

/** GET /api/week; `week` is absent without a plan. */
export interface WeekAnswer { readonly week?: WeekView }


/** GET /api/sources/:id */
export interface SourceAnswer { readonly id: string; readonly source: FigureSource }

/** GET /api/journal?before=&count= */
export interface JournalAnswer { readonly chain: ChainCheck; readonly total: number; readonly lines: readonly JournalLine[] }

/** Whether each event still carries the hash of the one before it. */
export type ChainCheck =
  | { readonly holds: true; readonly events: number; readonly lastHash: string }
  | { readonly holds: false; readonly brokenAt: number; readonly because: string };

export interface JournalLine {
  readonly sequence: number;
  readonly id: string;
  readonly kind: string;
  readonly happenedAt: string;
  readonly recordedAt: string;
  readonly recordedBy: string;
  readonly sentence: string;
  readonly hash: string;
  readonly corrects?: string;
}

/** What is pushed on GET /api/live (server-sent events). A page that gets 'start-over' fetches everything again. */
export interface LiveMessages {
  progress: { readonly step: string; readonly share: number };
  plan: { readonly planId?: string };
  approved: { readonly planId: string; readonly by: string };
  stop: { readonly planId: string; readonly visit: string; readonly stop: number; readonly result: 'done' | 'failed' | 'open' };
  /** A cloud moved on in the queue; `waiting` are behind it. */
  imaging: ScanJob & { readonly waiting: number };
  scored: { readonly basin: string; readonly scan: string; readonly by: string };
  'start-over': Record<string, never>;
}
export type LiveKind = keyof LiveMessages;

/** HTTP 422: what was asked for cannot be, and every reason why. */
export interface RefusedAnswer { readonly refusals: readonly Refusal[] }
/** HTTP 503: the world failed, not the request. */
export interface FaultAnswer { readonly fault: string; readonly message: string; readonly retryHelps: boolean }
