import { expect, test } from 'vitest';
import { basinLayoutOf } from '../../src/greenhouse/basinLayoutOf.ts';
import { scanCloud } from '../../src/science/scan/scanBasin.ts';
import { growthOfLitres, scanGrown } from '../../src/twin/scan/scanGrown.ts';

const LAYOUT = basinLayoutOf({ id: 'standard', lengthMm: 2400, widthMm: 1200, depthMm: 190, emptyKg: 58, rafts: 6, raftKg: 1.6, levelMinShare: 0.8, raftGapMm: 10, rimAboveRaftsMm: 60 }, { stage: undefined, plants: 72 });

/** A basin of the demonstration at its resolution, every position with a plant of so many litres. */
const closedBasin = (litres: number, seed: number) => scanCloud(scanGrown({
  layout: LAYOUT, plants: Array.from({ length: 72 }, (_, place) => ({ place, type: 'butterhead' as const, growth: growthOfLitres(litres) })), plantSeed: seed, scanSeed: seed + 10, pixelMm: 4.6 }), LAYOUT, []);

test.each([[6, 1], [8, 1], [8, 2]])('plants of %i litres that hang over most of the rim (seed %i): the rim is found from a larger sample', (litres, seed) => {
  const scan = closedBasin(litres, seed);
  if (!scan.ok) throw new Error(JSON.stringify(scan.refusals));
  const { quality, plants } = scan.value.result;
  console.log(`${litres} litres: ${quality.rimPoints} points on ${quality.rimSides} sides of the rim, flat to ${quality.rimFlatnessMm.toFixed(1)} mm; ${plants.filter(({ present }) => present).length} of 72 plants`);
  expect(quality.rimSides).toBeGreaterThanOrEqual(3);
  expect(quality.rimPoints).toBeGreaterThan(200);
  expect(Math.abs(quality.sizeRatio - 1)).toBeLessThan(0.1);
  expect(plants.filter(({ present }) => present).length).toBeGreaterThanOrEqual(68);
});

test('where leaves hide the whole rim the scan is refused with what to do', () => {
  expect(closedBasin(12, 1)).toMatchObject({ ok: false, refusals: [{ code: 'scan-rim-not-found', path: 'cloud', message: expect.stringContaining('lay leaves that hang over the rim inwards') }] });
});
