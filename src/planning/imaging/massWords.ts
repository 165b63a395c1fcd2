import type { MassBasis } from '../../greenhouse/scanEvents.ts';

/** How the masses of a scan were told, for a person. */
export function massWords(basis: MassBasis): string {
  switch (basis.from) {
    case 'weighed': return `Learnt from ${basis.samples} plants that were weighed and scanned, ${basis.ofCultivar} of them of this crop; all masses of this scan may be off together by ${percent(basis.commonLnSd)}.`;
    case 'card': return `Nobody has weighed enough scanned plants of this crop and age yet: mass stands on the litres of the canopy and the crop card, and all masses may be off together by ${percent(basis.commonLnSd)}.`;
    case 'nothing': return basis.reason;
  }
}

const percent = (lnSd: number): string => `${Math.round(100 * (Math.exp(lnSd) - 1))} % (one standard deviation)`;
