import { expect, it } from 'vitest';
import { readingRanges } from './readingRanges.ts';

it('gathers readings by quantity with least, most and last', () => {
  const at = (hour: number, quantity: string, value: number) => ({ at: `2026-04-14T0${hour}:00:00Z`, place: 'basin:B1', quantity, value });
  const ranges = readingRanges([at(1, 'pH', 6.2), at(1, 'ecMsPerCm25', 1.8), at(2, 'pH', 5.9), at(3, 'pH', 6), at(3, 'strange', 1)]);
  expect(ranges.map((is) => [is.title, is.unit, is.count, is.least, is.most, is.last, is.lastAt])).toEqual([
    ['acidity, pH', '', 3, 5.9, 6.2, 6, '2026-04-14T03:00:00Z'],
    ['conductivity at 25 °C', 'mS/cm', 1, 1.8, 1.8, 1.8, '2026-04-14T01:00:00Z'],
    ['strange', '1', 1, 1, 1, 1, '2026-04-14T03:00:00Z'],
  ]);
  expect(readingRanges([])).toEqual([]);
});
