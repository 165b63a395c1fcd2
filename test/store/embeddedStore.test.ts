import { afterAll, describe } from 'vitest';
import { embeddedBench } from './embeddedBench.ts';
import { storeContract } from './storeContract.ts';

describe('store with the embedded database', () => {
  const bench = embeddedBench();
  afterAll(() => bench.remove());
  storeContract(() => bench);
});
