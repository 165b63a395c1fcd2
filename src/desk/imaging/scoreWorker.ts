import { parentPort } from 'node:worker_threads';
import { learnScores, type LearntScores, type ScoredExample } from '../../planning/imaging/learnScores.ts';
import { accepted } from '../../science/refusal.ts';
import type { PlanNews, PlanTask } from '../planning/planThread.ts';

/** The module of the thread that learns from growers' scores. */
const port = parentPort!;
const tell = (news: PlanNews<LearntScores>): void => port.postMessage(news);

port.on('message', ({ task, inputs }: PlanTask<readonly ScoredExample[]>) => {
  try {
    tell({ task, news: 'planned', outcome: accepted(learnScores(inputs)) });
  } catch (error) {
    tell({ task, news: 'broke', message: error instanceof Error ? error.stack ?? error.message : String(error) });
  }
});
