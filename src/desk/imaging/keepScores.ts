import type { LearntScores, ScoredExample } from '../../planning/imaging/learnScores.ts';
import { scanBook, type ScanBook } from '../../planning/imaging/scanBook.ts';
import { scoredExamples } from '../../planning/imaging/scoredExamples.ts';
import type { OpenGreenhouse } from '../openGreenhouse.ts';
import { openPlanThread, type PlanThread } from '../planning/planThread.ts';

/** All scans at hand, and what was learnt from growers' scores. */
export interface ScoreDesk {
  readonly book: () => ScanBook;
  /** What was learnt last; learning from newer scores may be under way. Undefined until something was. */
  readonly learnt: () => LearntScores | undefined;
  /** Resolves when what is learnt knows every score. */
  readonly settled: () => Promise<void>;
  readonly close: () => Promise<void>;
}

const WORDS = { fault: 'imaging', brokeOff: 'Learning from scores broke off.', mistake: 'Learning from scores made a mistake. The log of the desk says more.' };

/** Learns anew, in a thread, when there are new scores. */
export function keepScores(greenhouse: Pick<OpenGreenhouse, 'allEvents'>, report: (error: unknown) => void): ScoreDesk {
  let book: { readonly events: number; readonly is: ScanBook } | undefined;
  let learnt: LearntScores | undefined;
  let learntFrom = -1;
  let thread: PlanThread<readonly ScoredExample[], LearntScores> | undefined;
  let running: Promise<void> | undefined;

  const open = (): ScanBook => {
    const events = greenhouse.allEvents();
    if (book?.events !== events.length) book = { events: events.length, is: scanBook(events) };
    return book.is;
  };
  const scores = (): number => greenhouse.allEvents().filter(({ kind }) => kind === 'plants-scored').length;
  const learn = async (): Promise<void> => {
    while (learntFrom !== scores()) {
      const from = scores();
      const outcome = await (thread ??= openPlanThread(workerAddress(), WORDS)).plan(scoredExamples(open()), () => undefined);
      if (outcome.ok) learnt = outcome.value;
      learntFrom = from;
    }
  };
  const start = (): Promise<void> => (running ??= learn().catch(report).finally(() => { running = undefined; }));

  return {
    book: open,
    learnt: () => {
      if (learntFrom !== scores()) void start();
      return learnt;
    },
    settled: start,
    close: async () => { await thread?.close(); },
  };
}

function workerAddress(): URL {
  const here = import.meta.url;
  return new URL(here.endsWith('.ts') ? './scoreWorker.ts' : './scoreWorker.js', here);
}
