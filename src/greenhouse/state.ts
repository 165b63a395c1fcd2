import type { Composition } from '../science/chemistry/composition.ts';
import type { ActionDecided } from './actionEvents.ts';
import type { ApprovedPlan } from './events.ts';
import type { ScanNote } from './scanNote.ts';
import type { CropCard } from './schema/cropCard.ts';
import type { BasinType, GreenhouseFile } from './schema/greenhouseFile.ts';
import type { ProductDescription } from './schema/productsFile.ts';
import type { AnalysisRow, LotRow, OrderLine, SampleRow, SowingRow } from './schema/tableRows.ts';
import type { WaterBook } from './waterBook.ts';

/** What the journal adds up to. Plain records in sorted key order, so that equal journals give equal states. */
export interface GreenhouseState {
  /** Sequence of the last event folded in; 0 for none. */
  readonly sequence: number;
  /** Sequence of the last event that changed what plans of the day stand on: scans and scores come in between without outdating one. */
  readonly floorSequence: number;
  readonly file: GreenhouseFile | undefined;
  readonly floor: Floor | undefined;
  readonly crops: Readonly<Record<string, CropCard>>;
  readonly products: Readonly<Record<string, ProductDescription>>;
  readonly weather: { readonly fileName: string; readonly text: string } | undefined;
  /** Key: order/line. */
  readonly orders: Readonly<Record<string, OrderLine>>;
  readonly delivered: Readonly<Record<string, number>>;
  /** Key: basin id. */
  readonly basins: Readonly<Record<string, BasinState>>;
  /** What was sown and is still in its trays, `plants` being those that are still to go into basins. Key: lot. */
  readonly trays: Readonly<Record<string, SowingRow>>;
  readonly samples: readonly SampleRow[];
  readonly analyses: readonly AnalysisRow[];
  /** Where water and what is dissolved in it came from and went. */
  readonly water: WaterBook;
  readonly approved: ApprovedPlan | undefined;
  /** Key: planId/visit/stop. */
  readonly outcomes: Readonly<Record<string, { readonly result: 'done' | 'failed'; readonly at: string; readonly by: string; readonly reason?: string; /** Id of the event that says so. */ readonly event: string }>>;
  /** Stops that were marked wrongly and are open again: id of the correction. Key as above. */
  readonly reopened?: Readonly<Record<string, string>>;
  /** In the order in which they were decided: of a lot the last one holds. */
  readonly decisions: readonly DecidedAction[];
}

/** What a person decided about a lot, and when (UTC instant). */
export interface DecidedAction extends ActionDecided { readonly at: string }

export interface BasinState {
  readonly id: string;
  readonly type: BasinType;
  readonly bay: string;
  readonly berth: string;
  /** What grows in it; absent when it holds no plants. */
  readonly planting: LotRow | undefined;
  /** The last filling that was recorded, or what the balance said when the plants last changed; absent where none is known. */
  readonly filled: { readonly at: string; readonly volumeL: number; readonly mmolPerL: Composition; readonly counted?: CountedWater } | undefined;
  readonly imagedAt: string | undefined;
  /** In the order in which they were taken; of earlier lots too. */
  readonly scans: readonly ScanNote[];
  readonly washedAt: string | undefined;
  /** True after a harvest until it was washed. */
  readonly needsWash: boolean;
}

/** How sure the balance was of water that was counted, not filled: one standard deviation. */
export interface CountedWater { readonly volumeSdL: number; readonly strengthSdShare: number }

/** The floor as a graph, expanded from nodes, edges and grids. */
export interface Floor {
  /** Key: node id; metres. */
  readonly nodes: Readonly<Record<string, { readonly xM: number; readonly yM: number }>>;
  readonly edges: readonly { readonly from: string; readonly to: string; readonly lengthM: number; readonly oneWay: boolean }[];
  readonly berths: readonly Berth[];
}

export interface Berth {
  readonly id: string;
  readonly node: string;
  readonly bay: string;
}
