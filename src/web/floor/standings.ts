import type { BasinStanding } from '../../desk/contract.ts';

/** Each standing in the order of urgency, with the mark that says it without colour. */
export const STANDINGS: readonly { readonly standing: BasinStanding; readonly mark: 'bar' | 'flag' | 'wave' | 'question' | 'plain' | 'empty'; readonly meaning: string }[] = [
  { standing: 'must be seen today', mark: 'flag', meaning: 'a station must see it today' },
  { standing: 'ready to harvest', mark: 'bar', meaning: 'its lot is ready by the forecast' },
  { standing: 'water out of band', mark: 'wave', meaning: 'something in its water is outside the band of its crop' },
  { standing: 'water unknown', mark: 'question', meaning: 'nobody knows what is in its water' },
  { standing: 'on track', mark: 'plain', meaning: 'plants and water as they should be' },
  { standing: 'no plants', mark: 'empty', meaning: 'nothing grows in it' },
];

export const markOf = (standing: BasinStanding) => STANDINGS.find((is) => is.standing === standing)?.mark ?? 'plain';
