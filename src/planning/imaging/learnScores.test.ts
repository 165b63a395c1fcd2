import { describe, expect, it } from 'vitest';
import type { ScoreClass } from '../../greenhouse/scanEvents.ts';
import { startRandom } from '../../science/seededRandom.ts';
import { learnScores, proposeClass, type ScoredExample } from './learnScores.ts';

const CLASSES: readonly ScoreClass[] = ['good', 'good', 'good', 'slow', 'pale'];

/** Plants whose first feature tells slow ones and whose second tells pale ones, with noise; `tells` 0: features tell nothing. */
function invent(count: number, seed: number, tells = 2.5): ScoredExample[] {
  const random = startRandom(seed);
  return Array.from({ length: count }, (_, i) => {
    const named = CLASSES[random.below(CLASSES.length)]!;
    const features = [random.normal() - (named === 'slow' ? tells : 0), random.normal() + (named === 'pale' ? tells : 0), random.normal(), 3];
    return { features, class: named, group: `plant ${i}` };
  });
}

describe('learning from growers\' scores', () => {
  it('is right more often than always naming the commonest class, on plants that it has not seen', () => {
    const { model, trust, scored } = learnScores(invent(300, 1));
    const fresh = invent(1000, 2), right = fresh.filter(({ features, class: named }) => proposeClass(model!, features).class === named).length / fresh.length;
    const commonest = fresh.filter((example) => example.class === 'good').length / fresh.length;
    console.log(`300 invented scores: cross-validated ${trust!.rightShare.toFixed(3)}, on 1000 others ${right.toFixed(3)}, commonest ${commonest.toFixed(3)}`);
    expect(scored).toBe(300);
    expect(right).toBeGreaterThan(commonest + 0.15);
    expect(Math.abs(trust!.rightShare - right)).toBeLessThan(0.06);
    expect(Math.abs(trust!.commonestShare - commonest)).toBeLessThan(0.06);
  });

  it('does not claim to know more than the commonest class where features tell nothing', () => {
    const { trust } = learnScores(invent(400, 3, 0));
    expect(trust!.rightShare).toBeLessThan(trust!.commonestShare + 0.03);
  });

  it('holds out a group as a whole: copies of a plant in another scan teach nothing about it', () => {
    const noise = invent(150, 4, 0), copies = [...noise, ...noise];
    expect(learnScores(copies).trust!.rightShare).toBeLessThan(learnScores(copies).trust!.commonestShare + 0.05);
    expect(learnScores(copies).trust!.examples).toBe(300);
  });

  it('gives the same model for the same scores, confidences from 0 to 1, and waits for enough scores', () => {
    const examples = invent(120, 5);
    expect(learnScores(examples)).toEqual(learnScores(examples));
    const { model } = learnScores(examples.slice(0, 60));
    for (const { features } of examples) expect(proposeClass(model!, features).confidence).toBeLessThanOrEqual(1);
    expect(learnScores(examples.slice(0, 20))).toMatchObject({ model: undefined, trust: undefined, scored: 20 });
    expect(learnScores(examples.filter((example) => example.class === 'good')).model).toBeUndefined();
    expect(learnScores(examples.map((example) => ({ ...example, class: 'own' as const }))).model).toBeUndefined();
  });
});
