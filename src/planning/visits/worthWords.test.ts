import { expect, it } from 'vitest';
import type { ShiftDay } from '../day/shiftDay.ts';
import type { Worth } from '../schedule/worthOfMore.ts';
import { worthWords } from './worthWords.ts';

const startMs = Date.parse('2026-11-25T06:00:00Z');
const day: ShiftDay = { date: '2026-11-25', timeZone: 'UTC', startMs, endMs: startMs + 28_800_000, breaks: [], atMs: startMs, pickMs: startMs };
const worth: Worth = { what: 'vehicle', visitsMore: 0, latenessSavedS: 0, finishEarlierS: 0, withoutS: 7380, withS: 6000, finishS: 6300 };

it('says what is gained with its proof, what is only found, and that nothing is known', () => {
  expect(worthWords({ ...worth, finishEarlierS: 1290 }, 2, day)).toBe('A third vehicle would bring the last basin back 21 minutes earlier, at 07:45; no plan with two can do better than 08:03, none with it better than 07:40.');
  expect(worthWords({ ...worth, what: 'half hour', visitsMore: 1 }, 2, day)).toBe('Half an hour more of shift would let 1 visit be made that is left out today (found, not proven).');
  expect(worthWords({ ...worth, what: 'place', kind: 'filling', latenessSavedS: 120 }, 2, day)).toBe('One more place for filling would save 2 minutes of lateness (found, not proven).');
  expect(worthWords(worth, 7, day)).toBe("An eighth vehicle: nothing that this plan can show; the proven bound moves from 08:03 to 07:40.");
  expect(worthWords({ ...worth, withS: 7380 }, 2, day)).toContain('the proven bound stays at 08:03.');
});
