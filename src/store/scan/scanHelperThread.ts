// A second thread that puts points into a height field of its own. Started by startScanHelper.
import { closeSync, openSync } from 'node:fs';
import { parentPort } from 'node:worker_threads';
import { emptyField, fieldNumbers } from '../../science/scan/heightField.ts';
import { fillPieces, type FillTask } from './fillPieces.ts';

parentPort!.on('message', (task: FillTask) => {
  const descriptor = openSync(task.path, 'r');
  try {
    const field = emptyField(task.grid);
    const filled = fillPieces(descriptor, task, field);
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a worker thread, not a window
    parentPort!.postMessage(filled.ok ? { ok: true, value: { numbers: fieldNumbers(field).slice(), inside: filled.value }, warnings: [] } : filled);
  } finally {
    closeSync(descriptor);
  }
});
