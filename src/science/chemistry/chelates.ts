import type { Refusal } from '../refusal.ts';

/**
 * Highest pH at which the agents hold their iron: up to `holdsToPH` no loss, above `losesAbovePH` iron comes out within days.
 * EDTA: Jacobson 1951 (no loss below pH 6); DTPA and EDDHA: suppliers' pages. Stability constants: Lindsay 1979; Lopez-Rayo 2012.
 */
export const CHELATE_PH_WINDOWS = {
  EDTA: { holdsToPH: 6, losesAbovePH: 6.5 },
  DTPA: { holdsToPH: 7, losesAbovePH: 7.5 },
  EDDHA: { holdsToPH: 8.5, losesAbovePH: 9 },
} as const;

export type ChelatingAgent = keyof typeof CHELATE_PH_WINDOWS;

/** Warns where a chelate begins to lose its iron at a pH. Speciation never frees the iron: this is how the pH limit is told. */
export function warnChelate(agent: ChelatingAgent, pH: number, path: string): Refusal[] {
  const { holdsToPH, losesAbovePH } = CHELATE_PH_WINDOWS[agent];
  if (pH <= holdsToPH) return [];
  const message = pH > losesAbovePH ? `iron ${agent} loses its iron at this pH; use a stronger agent or lower the pH` : `iron ${agent} begins to lose its iron at this pH`;
  return [{ code: 'value-out-of-range', path, value: pH, limit: holdsToPH, unit: '[pH]', severity: 'warning', message }];
}
