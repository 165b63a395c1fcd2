import type { Mutation } from './numericConstants.ts';
/** x */
export const reasonOfEquivalence = (_m: Mutation): string | undefined => undefined;
