import type { Composition } from '../science/chemistry/composition.ts';

/**
 * What the balance of a basin came to when its visit was planned: what it held then, and where the rest of what it started
 * with went. Contents = start - transpired + unexplained for water, start - uptake + unexplained for every component.
 */
export interface BasinAccount {
  /** UTC instant of the plan. */
  readonly at: string;
  /** UTC instant that it counts from: the last filling on record, else the readings that it was first known by. */
  readonly from: string;
  readonly volumeL: number;
  readonly mmol: Composition;
  readonly transpiredL: number;
  readonly uptakeMmol: Composition;
  readonly unexplainedL: number;
  readonly unexplainedMmol: Composition;
  /** One standard deviation of the volume, and of the concentrations (relative). */
  readonly volumeSdL: number;
  readonly strengthSdShare: number;
}
