import { describe, expect, it } from 'vitest';
import { inventLot, LEAFY } from '../../../bench/inventedLots.ts';
import { forecastLot } from '../../science/crop/forecastLot.ts';
import { priorsOfLots, type LotToLearnFrom } from './priorsOfLots.ts';

const { input, samples } = inventLot(1_000, { ...LEAFY, modelId: 'two-state-lettuce', shared: { lightUse: -0.5, early: 0, matter: 0 } });
const at = samples[3]!.date;
const lot = (name: string, card: string, weighed: number): LotToLearnFrom =>
  ({ lot: name, card, input: { ...input, at, horizonDays: 10, members: 60, samples: samples.slice(0, weighed) } });

describe('what the other lots of a card teach', () => {
  const priors = priorsOfLots([lot('A', 'butterhead', 4), lot('B', 'butterhead', 0), lot('C', 'oakleaf', 4), lot('D', 'oakleaf', 4)]);

  it('a lot nobody weighed begins with what its neighbour showed: slow growth', () => {
    expect(priors.get('B')!.from).toEqual(['A']);
    expect(priors.get('B')!.prior.assimilation.mean).toBeLessThan(-0.05);
    expect(priors.get('B')!.prior.assimilation.sd).toBeLessThan(0.25);
    const days = (prior?: object) => {
      const forecast = forecastLot({ ...lot('B', 'butterhead', 0).input, ...prior });
      return forecast.ok ? forecast.value.dates.at(-1)!.dryG.p50 : NaN;
    };
    expect(days({ prior: priors.get('B')!.prior })).toBeLessThan(0.97 * days());
  });

  it('no lot is taught by itself, by lots of another card, or by lots that nobody weighed', () => {
    expect(priors.get('A')).toBeUndefined();
    expect(priors.get('C')!.from).toEqual(['D']);
    expect(priorsOfLots([lot('A', 'butterhead', 4)]).size).toBe(0);
  });
});
