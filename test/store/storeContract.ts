import { backupContract } from './contract/backupContract.ts';
import { holdContract } from './contract/holdContract.ts';
import { journalContract } from './contract/journalContract.ts';
import { readingsContract } from './contract/readingsContract.ts';
import type { StoreBench } from './contract/storeBench.ts';
import { walkContract } from './contract/walkContract.ts';

/** What every store does, whichever database lies under it. */
export function storeContract(bench: () => StoreBench): void {
  journalContract(bench);
  readingsContract(bench);
  backupContract(bench);
  holdContract(bench);
  walkContract(bench);
}
