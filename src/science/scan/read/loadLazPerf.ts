import type { LazPerf } from 'laz-perf';
import { createLazPerf } from 'laz-perf';

/**
 * A fresh instance of the library that unpacks LAZ (laz-perf, Apache-2.0, WebAssembly). One for each file: a damaged file may leave it
 * unusable. The only asynchronous step of reading.
 */
export const loadLazPerf = (): Promise<LazPerf> => createLazPerf();
