import { accepted, type Outcome, type Refusal } from '../science/refusal.ts';
import { openSession, type GreenhouseSession, type SessionSettings } from '../store/session/openSession.ts';
import type { ScanQueue } from '../store/scan/scanQueue.ts';
import type { ChainCheck } from './contract.ts';
import type { OpenGreenhouse } from './openGreenhouse.ts';
import { keepSowing, type SowingDesk } from './sowing/keepSowing.ts';
import { openPlanMaker } from './planning/openPlanMaker.ts';
import type { PlanMaker } from './openGreenhouse.ts';

/** A folder that is open for the desk: what it asks of a greenhouse, and plans from it. */
export interface OpenFolder {
  readonly greenhouse: OpenGreenhouse;
  readonly maker: PlanMaker;
  readonly sowing: SowingDesk;
  readonly scans: ScanQueue;
  readonly warnings: readonly Refusal[];
  readonly announceAddress: (url: string) => Promise<void>;
}

/** Opens a greenhouse folder with its store and a thread that plans. Refused as `openSession` refuses. */
export async function openFolder(settings: SessionSettings): Promise<Outcome<OpenFolder>> {
  const opened = await openSession(settings);
  if (!opened.ok) return opened;
  const session = opened.value;
  const ground = { state: session.state, stateUpTo: async (sequence: number) => session.stateUpTo(sequence), readingsBefore: session.readingsBefore };
  const maker = openPlanMaker(ground);
  return accepted({ greenhouse: greenhouseOf(session), maker, sowing: keepSowing(ground), scans: session.store.scans, warnings: session.warnings, announceAddress: session.store.announceAddress }, opened.warnings);
}

function greenhouseOf(session: GreenhouseSession): OpenGreenhouse {
  return {
    state: session.state,
    approve: (plan, nowAt) => session.act({ do: 'approve-plan', plan }, nowAt),
    recordSowing: (sowing, nowAt) => session.act(sowing, nowAt),
    decideAction: (decided, nowAt) => session.act({ do: 'decide-action', decided }, nowAt),
    markStop: ({ result, reason = '', actual, ...stop }, nowAt) => session.act(
      result === 'done' ? { do: 'mark-stop', ...stop, result, ...(actual ? { actual } : {}) } : { do: 'mark-stop', ...stop, result, reason }, nowAt),
    recordScan: (command, nowAt) => session.act(command, nowAt),
    allEvents: session.allEvents,
    correctStop: (correction, nowAt) => session.act({ do: 'correct-stop', ...correction }, nowAt),
    events: async (before, count) => session.events(before, count),
    checkChain: keepWhile(() => session.state().sequence, async () => chainCheck(await session.checkChain())),
    readings: (place, from, to) => session.store.readings.range({ place, from, to }),
    close: session.close,
  };
}

function chainCheck({ head, breaks }: Awaited<ReturnType<GreenhouseSession['checkChain']>>): ChainCheck {
  const first = breaks[0];
  if (first !== undefined) return { holds: false, brokenAt: first.sequence, because: first.message };
  return { holds: true, events: head.sequence, lastHash: head.hash };
}

/** How long a check of the whole chain is shown again without doing it anew, where nothing was written meanwhile. */
const KEPT_MS = 60_000;

/** Keeps an answer for a minute while a number stays the same: the whole chain is long and pages ask often. */
function keepWhile<T>(number: () => number, ask: () => Promise<T>): () => Promise<T> {
  let kept: { readonly number: number; readonly untilMs: number; readonly answer: Promise<T> } | undefined;
  return () => {
    if (kept === undefined || kept.number !== number() || kept.untilMs < performance.now()) kept = { number: number(), untilMs: performance.now() + KEPT_MS, answer: ask() };
    return kept.answer;
  };
}
