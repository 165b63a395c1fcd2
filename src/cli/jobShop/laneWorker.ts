import { parentPort, workerData } from 'node:worker_threads';
import { runLane } from '../../planning/jobShop/runLane.ts';
import { searchLane } from '../../planning/jobShop/searchLane.ts';
import type { LaneStart, LaneTask } from './laneTask.ts';

/** The module that the thread of one lane runs: a round for each message. */
const { model, seed, lane, stop } = workerData as LaneStart;
const search = searchLane(model, seed, lane);
const isStopped = (): boolean => Atomics.load(stop, 0) === 1;
parentPort!.on('message', ({ steps, bestTicks }: LaneTask) => { parentPort!.postMessage(runLane(search, steps, bestTicks, isStopped), []); });
