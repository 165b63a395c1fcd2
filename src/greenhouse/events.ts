import type { Composition } from '../science/chemistry/composition.ts';
import type { ActionDecided } from './actionEvents.ts';
import type { BasinAccount } from './basinAccount.ts';
import type { EventDraft, JournalEvent } from './journalEvent.ts';
import type { PlantsScored, ScanMeasured, ScanRefused } from './scanEvents.ts';
import type { CropCard } from './schema/cropCard.ts';
import type { GreenhouseFile } from './schema/greenhouseFile.ts';
import type { ProductsFile } from './schema/productsFile.ts';
import type { AnalysisRow, LotRow, OrderLine, SampleRow, SowingRow } from './schema/tableRows.ts';

/** Everything that can happen. A new kind of event is one more line here and one more case in evolve.ts. */
export interface EventBodies {
  'greenhouse-described': { readonly file: GreenhouseFile };
  'crop-described': { readonly card: CropCard };
  'products-described': { readonly file: ProductsFile };
  /** Outdoor weather of a typical year or as measured: the file as it was given. */
  'weather-given': { readonly fileName: string; readonly text: string };
  'order-placed': { readonly line: OrderLine };
  'order-withdrawn': { readonly order: string; readonly line: number };
  /** Seeds were sown: they stand in trays until their seedlings come into basins. */
  'lot-sown': { readonly row: SowingRow };
  /** What was sown comes to nothing, or was taken out of sowings.csv. */
  'sowing-withdrawn': { readonly lot: string; readonly reason: string };
  'lot-placed': { readonly row: LotRow };
  /** The plants of a lot are no longer in a basin: moved on, harvested, discarded, or taken out of lots.csv. */
  'lot-cleared': { readonly lot: string; readonly basin: string; readonly reason: string };
  'analysis-recorded': { readonly row: AnalysisRow };
  'sample-taken': { readonly row: SampleRow };
  'plan-approved': { readonly plan: ApprovedPlan };
  'stop-done': StopOutcome & { readonly actual?: StopActual };
  'stop-failed': StopOutcome & { readonly reason: string };
  /** A stop was marked wrongly: what is true of it instead, and why. Corrects the mark, which stays in the journal. */
  'stop-corrected': StopOutcome & { readonly now: 'done' | 'failed' | 'open'; readonly reason: string };
  'scan-measured': ScanMeasured;
  'scan-refused': ScanRefused;
  'plants-scored': PlantsScored;
  'action-decided': ActionDecided;
}

export type EventKind = keyof EventBodies;
export type GreenhouseEvent = { [K in EventKind]: JournalEvent<K, EventBodies[K]> }[EventKind];
export type GreenhouseEventDraft = { [K in EventKind]: EventDraft<K, EventBodies[K]> }[EventKind];

/** What a person approved: enough to know what was meant to happen, by whom, from which inputs. */
export interface ApprovedPlan {
  /** Identity of the plan: SHA-256 (hex, first 16) of its canonical JSON. */
  readonly planId: string;
  readonly at: string;
  readonly approvedBy: string;
  /** Sequence of the last journal event that the plan was computed from. */
  readonly upToSequence: number;
  /** Stops that people kept where they wanted them, and the rest planned around them; absent where nobody did. */
  readonly pins?: readonly StopPin[];
  readonly visits: readonly ApprovedVisit[];
}

/** One stop that a person moved: where its work happens and when it begins. */
export interface StopPin {
  readonly visit: string;
  readonly stop: number;
  readonly station: string;
  /** UTC instant. */
  readonly startAt: string;
  /** The person who wanted it. */
  readonly by: string;
}

export interface ApprovedVisit {
  readonly visit: string;
  readonly basin: string;
  readonly fromBerth: string;
  readonly toBerth: string;
  readonly vehicleFirst?: string;
  /** Planned ways, by leg (0: to the first stop; number of stops: to the berth); what re-planning keeps as far as it can. */
  readonly trips?: readonly { readonly leg: number; readonly vehicle: string; readonly pickAt: string; readonly arriveAt: string }[];
  readonly stops: readonly ApprovedStop[];
  /** The balance of its water when the plan was made; absent where only images are taken or nobody knew the water. */
  readonly account?: BasinAccount;
}

export interface ApprovedStop {
  /** Index within the visit, from 0. */
  readonly stop: number;
  readonly kind: string;
  readonly station: string;
  /** UTC instants. */
  readonly startAt: string;
  readonly endAt: string;
  /** What the stop does to the plants and the water; evolve applies it when the stop is done. */
  readonly effect: StopEffect;
}

/**
 * What a stop that is done does. Solution that is drained at a filling or before a wash goes into the return tank `drainTo`,
 * or to discharge where that is absent. `drawMmol` is what came with the litres of each source. Transplanting has two sides: at the source's own stop (fromBasin = toBasin) all plants are
 * lifted out; at each target's stop its part of them is set. Without `fromBasin` seedlings come out of their trays.
 */
export type StopEffect =
  | { readonly kind: 'filling'; readonly drainL: number; readonly drainTo?: string; readonly drawL: Readonly<Record<string, number>>; readonly drawMmol?: Readonly<Record<string, Composition>>; readonly resultMmolPerL: Readonly<Record<string, number>>; readonly resultVolumeL: number }
  | { readonly kind: 'imaging' }
  | { readonly kind: 'transplanting'; readonly lot: string; readonly fromBasin?: string; readonly toBasin: string; readonly stage: string; readonly plants: number; readonly crop: string; readonly sown: string }
  | { readonly kind: 'harvest'; readonly lot: string; readonly plants: number; readonly orders: readonly { readonly order: string; readonly line: number; readonly units: number }[] }
  | { readonly kind: 'washing'; readonly drainTo?: string };

export interface StopOutcome {
  readonly planId: string;
  readonly visit: string;
  readonly stop: number;
  readonly by: string;
}

/** What really happened where it differs from the plan. */
export interface StopActual {
  readonly volumeL?: number;
  readonly freshKg?: number;
  readonly plants?: number;
  readonly note?: string;
}
