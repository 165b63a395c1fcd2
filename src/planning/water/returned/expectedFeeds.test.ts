import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { basinFullL } from '../../../greenhouse/basinGeometry.ts';
import { cropCard } from '../../../greenhouse/schema/cropCard.ts';
import type { BasinView } from '../../needs/basinView.ts';
import { componentBands, targetComposition, uptakeComposition } from '../feedLimits.ts';
import { expectedFeeds } from './expectedFeeds.ts';

const card = cropCard.parse(parse(readFileSync('data/crops/butterhead.yaml', 'utf8')));
const NOW = Date.parse('2026-03-10T06:00:00Z');
const DAY = 86_400_000;
const type = { id: 't', lengthMm: 2000, widthMm: 1000, depthMm: 250, emptyKg: 50, rafts: 4, raftKg: 1, levelMinShare: 0.8, raftGapMm: 10, rimAboveRaftsMm: 60 };

function view(basin: string, volumeL: number, litresPerDay: number, more: { placed?: string; stage?: string; plants?: number } = {}): BasinView {
  const { placed = '2026-03-09', stage = card.stages.at(-1)!.id, plants = 40 } = more;
  return {
    basin: { id: basin, type, planting: { lot: 'L', crop: card.id, basin, stage, sown: '2026-02-10', placed, plants } }, card,
    water: { known: true, solution: { volumeL, mmolPerL: targetComposition(card), uptakeFactor: 1, transpirationFactor: 1 } },
    litresBetween: (from: number, to: number) => (litresPerDay * (to - from)) / DAY,
  } as unknown as BasinView;
}

describe('expectedFeeds', () => {
  it('tops up on the day on whose end the level would fall below its least, with what brings the bands back', () => {
    // Full 500 L, least 400 L: 440 L less 15 L a day is 395 at the end of the day after tomorrow (3 days), so it is due 2 days ahead.
    const [feed] = expectedFeeds([view('B1', 440, 15)], new Set(), NOW);
    expect(feed).toMatchObject({ crop: card.id, window: 'near' });
    expect(feed!.litres).toBeCloseTo(500 - 440 + 30, 9);
    const left = (targetComposition(card).K ?? 0) * 440 - (uptakeComposition(card).K ?? 0) * 30;
    expect(feed!.highMmolPerL.K).toBeCloseTo((componentBands(card).K![1] * 500 - left) / 90, 9);
    expect(feed!.lowMmolPerL.K).toBeCloseTo(Math.max(0, componentBands(card).K![0] * 500 - left) / 90, 9);
  });

  it('leaves out what is fed today, what lasts longer, and what nobody knows', () => {
    expect(expectedFeeds([view('B1', 440, 15)], new Set(['B1']), NOW)).toEqual([]);
    expect(expectedFeeds([view('B1', 500, 10)], new Set(), NOW)).toEqual([]);
    expect(expectedFeeds([{ ...view('B1', 440, 15), water: { known: false } } as unknown as BasinView], new Set(), NOW)).toEqual([]);
    expect(expectedFeeds([view('B1', 480, 13)], new Set(), NOW)[0]!.window).toBe('far');
  });

  it('fills the basins that plants move on into from empty', () => {
    const [first, next] = [card.stages[0]!, card.stages[1]!];
    const placed = new Date(NOW - (first.days! - 3) * DAY).toISOString().slice(0, 10);
    const plants = Math.floor(2.5 * next.plantsPerM2 * 2);
    const [feed] = expectedFeeds([view('B1', 500, 1, { placed, stage: first.id, plants })], new Set(), NOW);
    expect(feed).toMatchObject({ window: 'far', litres: 3 * basinFullL(type) });
    expect(feed!.lowMmolPerL.NO3).toBeCloseTo(componentBands(card).NO3![0], 9);
  });
});
