import type { Need, StationKind } from '../../desk/contract.ts';

/** Station kinds as nouns of the work, and the letter that stands for each in small drawings. */
export const KIND_WORDS: Readonly<Record<StationKind, { readonly work: string; readonly letter: string }>> = {
  filling: { work: 'Filling', letter: 'F' },
  imaging: { work: 'Imaging', letter: 'I' },
  transplanting: { work: 'Transplanting', letter: 'T' },
  harvest: { work: 'Harvest', letter: 'H' },
  washing: { work: 'Washing', letter: 'W' },
};

export const URGENCY_WORDS: Readonly<Record<Need['urgency'], string>> = { must: 'must go today', should: 'should go today', may: 'may go today' };
