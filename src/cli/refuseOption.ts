import { refused, type Outcome } from '../science/refusal.ts';

/** Refuses an option's value, with what is allowed. */
export const refuseOption = (option: string, value: string, limit: string): Outcome<never> =>
  refused([{ code: 'usage', severity: 'error', path: option, value, limit, message: `${option} ${value} is not understood; give ${limit}.` }]);
