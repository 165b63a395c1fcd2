import type { Refusal } from '../refusal.ts';
import type { ScanResult } from './scanResult.ts';

/** What a scan has to reach for its figures to be worth anything. Set on synthetic scenes, well outside what sound ones show. */
const LIMITS = { emptyShare: 0.45, rimFlatnessMm: 14, rimWidthMm: [2, 110], insideShare: 0.6, hiddenCover: 0.5 } as const;

/** Every reason why a measured scan is not to be trusted, with its figure and limit; none for a sound one. */
export function distrustScan({ quality, plants }: ScanResult, raftAreaMm2: number): Refusal[] {
  const reasons: Refusal[] = [];
  const doubt = (path: string, value: number, limit: unknown, unit: string, message: string) => reasons.push({ code: 'scan-untrusted', path: `quality.${path}`, value: Number(value.toPrecision(4)), limit, unit, message, severity: 'error' });
  const insideShare = quality.pointsInside / Math.max(1, quality.points);
  if (quality.emptyShare > LIMITS.emptyShare) doubt('emptyShare', quality.emptyShare, LIMITS.emptyShare, '1', 'Too much of the rafts holds no point at all, even in large cells; scan with more points or from better places.');
  if (quality.rimFlatnessMm > LIMITS.rimFlatnessMm) doubt('rimFlatnessMm', quality.rimFlatnessMm, LIMITS.rimFlatnessMm, 'mm', 'The points of the rim scatter too widely about a plane; the scan is noisy, or the rim is not what was found.');
  if (quality.rimWidthMm < LIMITS.rimWidthMm[0] || quality.rimWidthMm > LIMITS.rimWidthMm[1]) doubt('rimWidthMm', quality.rimWidthMm, LIMITS.rimWidthMm, 'mm', 'What was found around the points does not have the width of a rim; check innerMm of the layout.');
  if (insideShare < LIMITS.insideShare) doubt('pointsInside', insideShare, LIMITS.insideShare, '1', 'Too many points lie outside the basin; crop the cloud, or check the layout.');
  const cover = plants.reduce((sum, plant) => sum + plant.areaMm2, 0) / raftAreaMm2;
  if (cover < LIMITS.hiddenCover && quality.rafts.every((raft) => raft.plane === 'borrowed')) doubt('rafts', cover, LIMITS.hiddenCover, '1', 'No raft was found at its level although leaves cover little; check rimHeightMm and the rafts of the layout.');
  return reasons;
}
