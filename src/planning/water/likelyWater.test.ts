import { describe, expect, it } from 'vitest';
import type { CropCard } from '../../greenhouse/schema/cropCard.ts';
import type { GreenhouseState } from '../../greenhouse/state.ts';
import { likelySalts, likelyWater } from './likelyWater.ts';

const row = (id: string, at: string, sodiumMmolPerL: number) => ({ analysis: at, at, place: `tank:${id}`, sodiumMmolPerL, chlorideMmolPerL: 2 * sodiumMmolPerL });
const ROWS = [row('rain', '2026-03-01T00:00:00Z', 0.2), row('mains', '2026-03-01T00:00:00Z', 0.6), row('r', '2026-02-20T00:00:00Z', 1.4), row('r', '2026-03-01T00:00:00Z', 1.1), row('r', '2026-03-20T00:00:00Z', 9)];
const NOW = Date.parse('2026-03-10T00:00:00Z');
const stateOf = (ids: readonly string[]) => ({ file: { sources: [{ id: 'rain', kind: 'fresh' }, { id: 'mains', kind: 'fresh' }, { id: 'r', kind: 'return' }] }, analyses: ROWS.filter(({ place }) => ids.includes(place.slice(5))) }) as unknown as GreenhouseState;

describe('likelySalts', () => {
  it('are those of returned solution, else of fresh water, else unknown', () => {
    expect(likelySalts(stateOf(['rain', 'mains', 'r']), NOW)).toEqual({ Na: 1.1, Cl: 2.2 });
    const fresh = likelySalts(stateOf(['rain', 'mains']), NOW);
    expect([fresh.Na, fresh.Cl]).toEqual([expect.closeTo(0.4, 12), expect.closeTo(0.8, 12)]);
    expect(likelySalts(stateOf([]), NOW)).toEqual({});
  });
  it('stand beside the target of the crop', () => {
    const card = { water: { target: { mmolPerL: { K: 5 }, umolPerL: { Fe: 20 } } } } as unknown as CropCard;
    expect(likelyWater(card, { Na: 1.1, Cl: 2.2 })).toEqual({ Na: 1.1, Cl: 2.2, K: 5, Fe: 0.02 });
  });
});
