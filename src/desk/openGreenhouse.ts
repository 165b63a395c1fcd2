import type { SowingCommand } from '../greenhouse/decideSowing.ts';
import type { ActionDecided } from '../greenhouse/actionEvents.ts';
import type { ApprovedPlan, EventBodies, GreenhouseEvent, StopActual, StopPin } from '../greenhouse/events.ts';
import type { ScanCommand } from '../greenhouse/decideScan.ts';
import type { Reading } from '../greenhouse/journalEvent.ts';
import type { GreenhouseState } from '../greenhouse/state.ts';
import type { PlannedDay } from '../planning/planMorning.ts';
import type { Outcome } from '../science/refusal.ts';
import type { ChainCheck } from './contract.ts';

/** What the desk needs of a greenhouse folder that is open: its state, its journal, its readings, and two things that people decide. */
export interface OpenGreenhouse {
  readonly state: () => GreenhouseState;
  readonly approve: (plan: ApprovedPlan, nowAt: string) => Promise<Outcome<readonly GreenhouseEvent[]>>;
  readonly recordSowing: (sowing: SowingCommand, nowAt: string) => Promise<Outcome<readonly GreenhouseEvent[]>>;
  readonly decideAction: (decided: ActionDecided, nowAt: string) => Promise<Outcome<readonly GreenhouseEvent[]>>;
  readonly markStop: (mark: StopMark, nowAt: string) => Promise<Outcome<readonly GreenhouseEvent[]>>;
  /** What became of a cloud, or what a grower says of plants. */
  readonly recordScan: (command: ScanCommand, nowAt: string) => Promise<Outcome<readonly GreenhouseEvent[]>>;
  /** All entries of the journal, oldest first. */
  readonly allEvents: () => readonly GreenhouseEvent[];
  readonly correctStop: (correction: EventBodies['stop-corrected'], nowAt: string) => Promise<Outcome<readonly GreenhouseEvent[]>>;
  /** The newest events before a sequence (all where absent), newest last. */
  readonly events: (before: number | undefined, count: number) => Promise<readonly GreenhouseEvent[]>;
  readonly checkChain: () => Promise<ChainCheck>;
  /** Readings of one place between two instants, oldest first. */
  readonly readings: (place: string, fromAt: string, toAt: string) => Promise<readonly Reading[]>;
  readonly close: () => Promise<void>;
}

export interface StopMark {
  readonly planId: string;
  readonly visit: string;
  readonly stop: number;
  readonly by: string;
  readonly result: 'done' | 'failed';
  readonly reason?: string;
  readonly actual?: StopActual;
}

/** Computes plans away from the thread that answers requests. */
export interface PlanMaker {
  readonly make: (question: PlanQuestion, onProgress: (step: string, share: number) => void) => Promise<Outcome<PlannedDay>>;
  /** What one more vehicle, place or half hour would be worth to a plan made lately; undefined where another plan came first. */
  readonly worth: (planId: string) => Promise<readonly string[] | undefined>;
  readonly close: () => Promise<void>;
}

export interface PlanQuestion {
  readonly at: string;
  /** Plan from the events up to this one only: how a plan of earlier today is computed again. */
  readonly upToSequence?: number;
  /** Stops that people want where they put them. */
  readonly pins?: readonly StopPin[];
}
