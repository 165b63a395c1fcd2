import { describe, expect, it } from 'vitest';
import type { PlantMeasures, ScannedPlant } from '../../desk/contract.ts';
import { colouringOf, signed } from './colourings.ts';
import { layHistory } from './historyLayout.ts';
import { compareHeights, reachOf } from './picture/compareHeights.ts';
import { cellAt, heightMm, readHeightPicture, type HeightPicture } from './picture/heightPicture.ts';
import { outlineOf } from './picture/outlineOf.ts';
import { paintPicture } from './picture/paintPicture.ts';
import { readPoints } from './picture/readPoints.ts';
import { sideColour, stepColour, type Rgb } from './picture/ramp.ts';
import { shadeOf } from './picture/shadeOf.ts';
import { nearestPlace, pitchOf, stepFrom } from './plantSteps.ts';
import { measureRows, plantSentence } from './plantWords.ts';
import { readScanSearch } from './scanSearch.ts';
import { gapWords } from './scanWords.ts';
import { SCORE_CHOICES } from './scoreChoices.ts';
import { nextToLookAt } from './useScanKeys.ts';

/** A field of 10 mm cells about the middle, heights in tenths of a millimetre from -100 mm. */
function field(columns: number, rows: number, mm: (column: number, row: number) => number | undefined, label: (column: number, row: number) => number = () => 0): HeightPicture {
  const cells = Array.from({ length: columns * rows }, (_, cell) => [cell % columns, Math.floor(cell / columns)] as const);
  return {
    columns, rows, cellMm: 10, leftMm: -5 * columns, nearMm: -5 * rows, heightFromMm: -100, heightStepMm: 0.1, coloured: true,
    heights: Uint16Array.from(cells, ([x, y]) => { const is = mm(x, y); return is === undefined ? 0 : Math.round((is + 100) * 10); }),
    labels: Uint16Array.from(cells, ([x, y]) => label(x, y)), colours: Uint8Array.from(cells.flatMap(([x, y]) => [x, y, 7])),
  };
}

function frame(header: object, ...arrays: (Uint16Array | Uint8Array)[]): ArrayBuffer {
  let text = JSON.stringify(header);
  while (text.length % 4 !== 0) text += ' ';
  const bytes = new Uint8Array(4 + text.length + arrays.reduce((sum, { byteLength }) => sum + byteLength, 0));
  new DataView(bytes.buffer).setUint32(0, text.length, true);
  bytes.set(new TextEncoder().encode(text), 4);
  let at = 4 + text.length;
  for (const array of arrays) { bytes.set(new Uint8Array(array.buffer, array.byteOffset, array.byteLength), at); at += array.byteLength; }
  return bytes.buffer;
}

describe('pictures as they come', () => {
  const is = field(3, 2, (x, y) => x + 10 * y, (x) => x);
  const { heights, labels, colours, ...header } = is;

  it('reads a height field back to the last cell', () => {
    const read = readHeightPicture(frame(header, heights, labels, colours));
    expect(read).toEqual(is);
    expect([heightMm(read, cellAt(read, 14, 9)), cellAt(read, 16, 0), cellAt(read, -15.1, 0), heightMm(read, undefined)]).toEqual([12, undefined, undefined, undefined]);
  });
  it('throws at any cut instead of drawing half of it', () => {
    const whole = frame(header, heights, labels, colours);
    for (const bytes of [0, 3, 4, 60, whole.byteLength - 1]) expect(() => readHeightPicture(whole.slice(0, bytes)), `${bytes} bytes`).toThrow('incomplete');
  });
  it('reads a stretch of points', () => {
    const points = { kept: 9, from: 4, count: 2, lowMm: [0, 0, 0], highMm: [1, 1, 1], coloured: true };
    const read = readPoints(frame(points, Uint16Array.of(1, 2, 3, 4, 5, 6, 7, 65_535), Uint8Array.of(10, 20, 30, 40, 50, 60)));
    expect([[...read.places], [...read.tints], read.header.from]).toEqual([[1, 2, 3, 4, 5, 6, 7, 65_535], [10, 20, 30, 40, 50, 60], 4]);
    expect(() => readPoints(frame({ ...points, count: 3 }, Uint16Array.of(1, 2, 3, 4), Uint8Array.of(1, 2, 3)))).toThrow('incomplete');
  });
});

describe('the picture from above', () => {
  it('is drawn with the far side first, and says by a colour of its own what was not seen', () => {
    const pixels = paintPicture(field(2, 2, (x, y) => (x === 1 && y === 1 ? undefined : 0)), new Float32Array(4).fill(1), {});
    expect([...pixels]).toEqual([0, 1, 7, 255, 233, 228, 214, 255, 0, 0, 7, 255, 1, 0, 7, 255]);
  });
  it('paints plants by their own colour, plants without one in grey, and darkens the cells between two plants', () => {
    const pixels = paintPicture(field(4, 1, () => 5, (x) => [1, 1, 2, 0][x]!), new Float32Array(4).fill(1), { ofPlants: [[100, 50, 10], undefined] });
    const cells = Array.from({ length: 4 }, (_, cell) => [0, 1, 2].map((k) => pixels[4 * cell + k]));
    expect(cells).toEqual([[100, 50, 10], [60, 30, 6], [196, 196, 190], [244, 241, 232]]);
  });
  it('lights what leans to the upper left, shades what leans away, and leaves the level as it is', () => {
    const lit = (slope: number) => shadeOf(field(3, 3, (x) => 20 + slope * x))[4]!;
    expect(lit(0)).toBeCloseTo(1, 6);
    expect(lit(6)).toBeGreaterThan(1.05);
    expect(lit(-6)).toBeLessThan(0.95);
    expect(lit(-200)).toBeGreaterThanOrEqual(0.449);
  });
  it('draws the edge of a plant in whole runs: an L of three cells has six', () => {
    const path = outlineOf(field(3, 3, () => 0, (x, y) => (y === 0 && x < 2) || (y === 1 && x === 0) ? 1 : 0), 1);
    expect(path.match(/M/g)).toHaveLength(6);
    expect(path).toContain('M-15.0 -15.0H5.0');
    expect(path).toContain('M5.0 -15.0V-5.0');
    expect(outlineOf(field(2, 2, () => 0), 1)).toBe('');
  });
  it('compares two dates cell by cell, over cells of another size, and not where either saw nothing', () => {
    const before = { ...field(2, 1, () => 10), cellMm: 20, leftMm: -20, nearMm: -10 };
    const change = compareHeights(field(4, 2, (x) => (x === 0 ? undefined : 10 + x)), before);
    expect([...change]).toEqual([Number.NaN, 1, 2, 3, Number.NaN, 1, 2, 3]);
    expect([reachOf(change), reachOf(Float32Array.from({ length: 700 }, (_, i) => i - 350))]).toEqual([5, 343]);
  });
});

describe('colours', () => {
  /** CIE 1976 lightness of an sRGB colour (IEC 61966-2-1; CIE 15). */
  const lightness = (rgb: Rgb) => {
    const [r, g, b] = rgb.map((value) => value / 255).map((value) => (value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4)) as [number, number, number];
    return 116 * Math.cbrt(0.2126 * r + 0.7152 * g + 0.0722 * b) - 16;
  };
  const shares = Array.from({ length: 41 }, (_, i) => i / 40);
  it('of a scale grow darker at every step; those of two sides are lightest in the middle', () => {
    const steps = shares.map((share) => lightness(stepColour(share)));
    expect(steps.slice(1).every((is, i) => is < steps[i]!)).toBe(true);
    for (const side of [-1, 1]) {
      const fading = shares.map((share) => lightness(sideColour(side * share)));
      expect(fading.slice(1).every((is, i) => is < fading[i]!)).toBe(true);
    }
  });
  it('of scores have letters of their own that stand in their words', () => {
    expect(new Set(SCORE_CHOICES.map(({ letter }) => letter)).size).toBe(SCORE_CHOICES.length);
    for (const { letter, word } of SCORE_CHOICES) { expect(word.toUpperCase()).toContain(letter); expect('NBU').not.toContain(letter); }
  });
  it('by growth are centred on the middle plant; nothing is coloured that could not be told', () => {
    const picture = field(2, 2, () => 30, () => 1);
    const { paint, legend } = colouringOf('growth', [plant(1, { growthPerDay: 0.1 }), plant(2, { growthPerDay: 0.2 }), plant(3, { growthPerDay: 0.3 }), plant(4, {})], picture);
    expect(paint.ofPlants).toEqual([sideColour(-1), sideColour(0), sideColour(1), undefined]);
    expect(legend.strip?.marks[1]).toMatch(/^\+20.% *, the middle$/u);
    expect(colouringOf('growth', [plant(1, {})], picture).legend.words).toContain('from the second scan');
    const green = colouringOf('green', [plant(1, { greenness: 0.2 }), plant(2, { greenness: 0.4 }), plant(3, { greenness: 0.4 }), plant(4, {})], picture);
    expect(green.paint.ofPlants).toEqual([sideColour(-1), sideColour(0), sideColour(0), undefined]);
    expect(green.legend.strip?.marks).toEqual(['0.20', '0.40, the middle', '0.60']);
    expect(colouringOf('green', [plant(1, {})], picture).legend.words).toContain('no colours');
    expect(colouringOf('gap', [plant(1, { gapToForecast: -0.5 })], picture).paint.ofPlants).toEqual([sideColour(-1)]);
  });
});

const MEASURES: PlantMeasures = { areaMm2: 18_200, volumeMm3: 900_000, heightP95Mm: 74, heightMaxMm: 92, diameterMm: 168, sharedOutline: 0.34, points: 11_240 };
const plant = (position: number, measures: Partial<PlantMeasures> | undefined, more: Partial<ScannedPlant> = {}): ScannedPlant =>
  ({ raft: 1, position, xMm: 100 * position, yMm: 0, reasons: [], history: [], ...(measures === undefined ? {} : { measures: { ...MEASURES, ...measures } }), ...more });

describe('plants', () => {
  const grid = [[0, 0], [100, 0], [0, 100], [100, 100], [205, 95]].map(([xMm, yMm]) => ({ xMm: xMm!, yMm: yMm! }));
  it('are reached with the arrow keys, and by a press nearby', () => {
    expect([stepFrom(grid, 0, [1, 0]), stepFrom(grid, 0, [0, 1]), stepFrom(grid, 3, [1, 0]), stepFrom(grid, 0, [-1, 0]), stepFrom(grid, undefined, [1, 0])]).toEqual([1, 2, 4, 0, 0]);
    expect([nearestPlace(grid, 90, 20, 70), nearestPlace(grid, 50, 50, 60), pitchOf(grid), pitchOf([])]).toEqual([1, undefined, 100, 150]);
    expect(nearestPlace(grid, 400, 400, 70)).toBeUndefined();
  });
  it('to look at come round in both directions', () => {
    const reason = [{ reason: 'lags' as const, sentence: '' }];
    const plants = [{ reasons: [] }, { reasons: reason }, { reasons: [] }, { reasons: reason }];
    expect([nextToLookAt(plants, undefined, 1), nextToLookAt(plants, 1, 1), nextToLookAt(plants, 3, 1), nextToLookAt(plants, 1, -1), nextToLookAt(plants, undefined, -1), nextToLookAt([{ reasons: [] }], 0, 1)]).toEqual([1, 3, 1, 3, 3, 0]);
  });
  it('are put into words with units and intervals; what could not be told is said so', () => {
    const rows = Object.fromEntries(measureRows({ ...MEASURES, freshG: 84.2, lowG: 71, highG: 98 }).map(({ name, value, note }) => [name, `${value}|${note ?? ''}`.replaceAll('\u202f', ' ').replaceAll('\u00a0', ' ')]));
    expect(rows).toMatchObject({ 'Fresh mass': '84.2 g|nine in ten: 71.0 to 98.0 g', 'Area from above': '182 cm²|', 'Growth a day': 'not told|of volume, since the scan before', Height: '74 mm|95 % lie lower; highest 92 mm', 'Seen by': '11 240 points|' });
    expect(measureRows({ ...MEASURES, colour: { red: 90.4, green: 140, blue: 70 } }).find(({ name }) => name === 'Leaf colour')).toMatchObject({ value: '90 140 70', sample: [90.4, 140, 70] });
    expect(plantSentence(plant(3, undefined))).toBe('Raft 1, position 3: nothing grows there.');
    expect(plantSentence(plant(3, {}, { reasons: [{ reason: 'lags', sentence: '' }] }))).toBe('Raft 1, position 3: 182 cm², 74 mm high, lags behind.');
    expect([signed(-0.12), signed(0.04), signed(0.001)].map((text) => text.replace('\u202f', ' '))).toEqual(['−12 %', '+4 %', '0 %']);
    expect([gapWords(-0.04), gapWords(0.1), gapWords(0)].map((text) => text.replace('\u202f', ' '))).toEqual(['4 % behind the forecast', '10 % ahead of the forecast', 'as forecast']);
  });
  it('have a history by mass with intervals, or by area where mass was not told at every scan', () => {
    const frame420 = { width: 420, height: 170, left: 40, right: 20, top: 20, bottom: 30 };
    const scan = (day: number, freshG?: number) => ({ scan: String(day), takenAt: `2026-04-0${day}T06:00:00Z`, areaMm2: 1000 * day, volumeMm3: 1, heightP95Mm: 1, ...(freshG === undefined ? {} : { freshG, lowG: freshG * 0.8, highG: freshG * 1.2 }) });
    const byMass = layHistory({ history: [scan(1, 10), scan(5, 40)] }, frame420)!;
    expect([byMass.unit, byMass.points.map(({ x }) => x), byMass.points[1]!.y < byMass.points[0]!.y, byMass.points[1]!.high! < byMass.points[1]!.y]).toEqual(['g', [40, 400], true, true]);
    expect(layHistory({ history: [scan(1), scan(5, 40)] }, frame420)?.unit).toBe('cm²');
    expect(layHistory({ history: [] }, frame420)).toBeUndefined();
  });
});

it('takes from an address only what it knows', () => expect(readScanSearch({ scan: 'ab12', plant: 7, else: 'x' })).toEqual({ scan: 'ab12', with: undefined, plant: undefined }));
