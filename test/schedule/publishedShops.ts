import { existsSync, readFileSync } from 'node:fs';
import type { JobShopProblem } from '../../src/planning/jobShop/jobShopProblem.ts';

export interface PublishedShop { readonly name: string; readonly shop: JobShopProblem; readonly bestKnown: number }

const read = <T>(name: string): T | undefined => {
  const url = new URL(`../../../shared/data/scheduling/${name}`, import.meta.url);
  const path = process.env.WATERMEADOW_REFERENCE === undefined ? url : `${process.env.WATERMEADOW_REFERENCE}/scheduling/${name}`;
  return existsSync(path) ? JSON.parse(readFileSync(path, 'utf8')) as T : undefined;
};

interface VehicleSets {
  readonly layouts: Readonly<Record<string, number[][]>>;
  readonly jobsets: Readonly<Record<string, [number, number][][]>>;
  readonly instances: readonly { name: string; jobset: number; layout: number; processingMultiplier: number; travelDivisor: number; bestKnown: number }[];
}

/** The 82 shops with two vehicles of Bilge & Ulusoy 1995 (Operations Research 43:1058-1070); empty where the reference data are absent. */
export function vehicleShops(): PublishedShop[] {
  const sets = read<VehicleSets>('agv-jobshop-bilge-ulusoy-1995.json');
  return (sets?.instances ?? []).map(({ name, jobset, layout, processingMultiplier, travelDivisor, bestKnown }) => ({
    name, bestKnown,
    shop: {
      vehicles: 2, locations: ['LU', 'M1', 'M2', 'M3', 'M4'], startAt: 'LU',
      travelTime: sets!.layouts[String(layout)]!.map((row) => row.map((time) => time / travelDivisor)),
      jobs: sets!.jobsets[String(jobset)]!.map((operations, j) => ({ id: `J${j + 1}`, operations: operations.map(([m, time]) => ({ alternatives: [{ at: `M${m}`, duration: time * processingMultiplier }] })) })),
    },
  }));
}

interface PlainSets { readonly instances: readonly { name: string; machines: number; ub: number; ops: [number, number][][] }[] }

/** Pure job shops (ft, la, abz, orb, swv, yn, ta); empty where the reference data are absent. */
export function plainShops(): PublishedShop[] {
  return (read<PlainSets>('jsp-classic.json')?.instances ?? []).map(({ name, machines, ub, ops }) => ({
    name, bestKnown: ub,
    shop: {
      vehicles: 0, locations: Array.from({ length: machines }, (_, m) => `M${m}`), travelTime: [], startAt: 'M0',
      jobs: ops.map((operations, j) => ({ id: `J${j}`, operations: operations.map(([m, duration]) => ({ alternatives: [{ at: `M${m}`, duration }] })) })),
    },
  }));
}
