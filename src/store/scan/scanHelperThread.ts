// A second thread that puts points into a height field of its own. Started by startScanHelper.
import { closeSync, openSync } from 'node:fs';
import { parentPort } from 'node:worker_threads';
import { closeField, emptyField, fieldNumbers } from '../../science/scan/heightField.ts';
import { fillPieces } from './fillPieces.ts';
import type { HelperTask } from './startScanHelper.ts';

parentPort!.on('message', ({ task, numbers }: HelperTask) => {
  const descriptor = openSync(task.path, 'r'), field = emptyField(task.grid);
  try {
    const inside = fillPieces(descriptor, task, field);
    numbers.set(fieldNumbers(field));
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a worker thread, not a window
    parentPort!.postMessage(inside);
  } finally {
    closeField(field);
    closeSync(descriptor);
  }
});
