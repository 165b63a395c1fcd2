import { describe, expect, it } from 'vitest';
import { readInstant, writeInstant } from './instant.ts';

describe('instants', () => {
  it.each([
    ['2026-11-25T06:30:00Z', 1_795_588_200_000], ['2026-11-25T06:30Z', 1_795_588_200_000], ['2026-11-25T06:30:00.123Z', 1_795_588_200_123],
    ['2026-11-25T06:30:00.1239999Z', 1_795_588_200_123], ['2024-02-29T23:59:59Z', 1_709_251_199_000], ['1970-01-01T00:00:00Z', 0],
  ])('reads %s', (text, ms) => {
    expect(readInstant(text)).toBe(ms);
  });

  it.each(['', '2026-11-25', '2026-11-25T06:30:00', '2026-11-25T06:30:00+01:00', '2026-02-30T00:00:00Z', '2025-02-29T00:00:00Z', '2026-13-01T00:00:00Z', '2026-11-25T24:00:00Z', '2026-11-25 06:30:00Z', 'now', 7, undefined])('does not take %s', (text) => {
    expect(readInstant(text)).toBeUndefined();
  });

  it('writes milliseconds always', () => {
    expect(writeInstant(1_795_588_200_000)).toBe('2026-11-25T06:30:00.000Z');
  });
});
