import { describe, expect, it } from 'vitest';
import type { BasinOutlook, Need } from '../../planning/morningPlan.ts';
import { basinStanding } from './basinStanding.ts';

const outlook = (rest: Partial<BasinOutlook>): BasinOutlook => ({ basin: 'B1', bay: 'g', berth: 'x', visitsToday: [], needs: [], ...rest });
const water = (outOfBand: string[]) => ({ volumeL: 400, mmolPerL: {}, ecMsPerCm25: 2, basis: '', levelShare: 1, outOfBand });
const need = (urgency: Need['urgency']): Need => ({ basin: 'B1', kind: 'filling', urgency, reason: '', why: '' });
const date = '2026-04-14';

describe('the one word for a basin, the most pressing first', () => {
  it.each([
    ['must be seen today', outlook({ lot: 'L', water: water(['K']), readyDate: date }), [need('may'), need('must')]],
    ['no plants', outlook({ water: water([]) }), [need('should')]],
    ['no plants', undefined, []],
    ['ready to harvest', outlook({ lot: 'L', water: water(['K']), readyDate: date }), []],
    ['water unknown', outlook({ lot: 'L', readyDate: '2026-04-15' }), []],
    ['water out of band', outlook({ lot: 'L', water: water(['K']) }), [need('should')]],
    ['on track', outlook({ lot: 'L', water: water([]), readyDate: '2026-04-15' }), []],
  ] as const)('%s', (word, is, needs) => expect(basinStanding(is, needs, date)).toBe(word));
});
