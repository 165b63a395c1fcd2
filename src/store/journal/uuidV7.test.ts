import { describe, expect, it } from 'vitest';
import { formUuidV7, uuidV7Maker } from './uuidV7.ts';

describe('ids', () => {
  it('forms the example of RFC 9562, appendix A.6', () => {
    console.log('ids against RFC 9562, appendix A.6: 2022-02-22 19:22:22 GMT');
    const chance = Buffer.from('0cc318c4dc0c0c07398f', 'hex');
    expect(formUuidV7(0x017f22e279b0, chance)).toBe('017f22e2-79b0-7cc3-98c4-dc0c0c07398f');
  });

  it('ascend, also within a millisecond, over the end of the counter and when the clock steps back', () => {
    let ms = 1_700_000_000_000;
    const nextId = uuidV7Maker(() => ms);
    const ids = Array.from({ length: 10_000 }, (_, index) => {
      if (index === 5_000) ms -= 3_600_000;
      return nextId();
    });
    expect(ids.toSorted()).toEqual(ids);
    expect(new Set(ids).size).toBe(ids.length);
    expect(ids.every((id) => /^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/.test(id))).toBe(true);
  });
});
