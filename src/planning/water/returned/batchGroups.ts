import { mixSolutions, type Component, type Composition } from '../../../science/chemistry/composition.ts';
import type { ReturnBatch } from './returnBatches.ts';

/** Batches that are alike enough to be decided on together. */
export interface BatchGroup {
  readonly batches: readonly ReturnBatch[];
  readonly litres: number;
  readonly mmolPerL: Composition;
  readonly approved?: { readonly to?: string };
}

/** Most groups: with more, the search takes longer than a plan may. */
const MOST_GROUPS = 6;
/** Batches are alike when nothing that is compared differs by more than this share (common practice, no source). */
const ALIKE = 0.15;
const COMPARED: readonly Component[] = ['NO3', 'K', 'Ca', 'Na', 'Cl'];

/** Groups of like batches, in the order in which they first appear; what was approved stays by itself, one group a destination. */
export function groupBatches(batches: readonly ReturnBatch[]): BatchGroup[] {
  const groups: BatchGroup[] = [];
  for (const batch of batches) {
    const kin = groups.map((group, at) => ({ at, distance: distance(group, batch) })).filter(({ distance: is }) => is < Infinity).sort((a, b) => a.distance - b.distance || a.at - b.at)[0];
    const open = groups.filter(({ approved }) => approved === undefined).length;
    if (kin !== undefined && (kin.distance <= ALIKE || batch.approved !== undefined || open >= MOST_GROUPS)) groups[kin.at] = join(groups[kin.at]!, batch);
    else groups.push({ batches: [batch], litres: batch.litres, mmolPerL: batch.mmolPerL, ...(batch.approved === undefined ? {} : { approved: batch.approved }) });
  }
  return groups;
}

function distance(group: BatchGroup, batch: ReturnBatch): number {
  if ((group.approved === undefined) !== (batch.approved === undefined) || group.approved?.to !== batch.approved?.to) return Infinity;
  return Math.max(...COMPARED.map((name) => {
    const [a, b] = [group.mmolPerL[name] ?? 0, batch.mmolPerL[name] ?? 0];
    return Math.abs(a - b) / Math.max(a, b, 0.5);
  }));
}

function join(group: BatchGroup, batch: ReturnBatch): BatchGroup {
  const { volumeL, mmolPerL } = mixSolutions([{ volumeL: group.litres, mmolPerL: group.mmolPerL }, { volumeL: batch.litres, mmolPerL: batch.mmolPerL }]);
  return { ...group, batches: [...group.batches, batch], litres: volumeL, mmolPerL };
}
