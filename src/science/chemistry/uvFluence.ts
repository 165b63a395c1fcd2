/**
 * Fluence that fungi and bacteria, and viruses, need in returned solution at 254 nm, mJ/cm2. Source: Runia 1995, Acta Hort.
 * 382 (from memory), as trade articles of 2021 and 2022 repeat it.
 */
export const NEEDED_FLUENCE_MJ_PER_CM2 = { 'fungi and bacteria': 100, viruses: 250 } as const;

/** A UV-C lamp in the middle of a chamber, with the water that flows around it. */
interface UvChamber {
  /** UV-C that reaches the water from all lamps, W: output at 254 nm x ageing and fouling. */
  readonly uvcW: number;
  /** Thickness of the water around the lamp's sleeve, cm. */
  readonly layerCm: number;
  /** The water's decadic absorbance at 254 nm, 1/cm. */
  readonly absorbancePerCm: number;
}

/**
 * Mean UV-C within a layer over that where it enters: (1 - 10^(-a L)) / (ln 10 a L), 1 for clear water. Beer-Lambert averaged
 * over the depth. Source: Bolton & Linden 2003, J. Environ. Eng. 129:209-215 (water factor; from memory).
 */
export function waterFactor(absorbancePerCm: number, depthCm: number): number {
  const absorbance = absorbancePerCm * depthCm;
  if (absorbance < 1e-6) return 1 - (Math.LN10 * absorbance) / 2;
  return -Math.expm1(-Math.LN10 * absorbance) / (Math.LN10 * absorbance);
}

/**
 * Mean fluence of water that flows along a lamp, mJ/cm2. Light of a line of power P spreads radially, E(r) = P 10^(-a(r-r0)) /
 * (2 pi r l); its mean over the ring of water times the time V/Q spent there is P x layer x water factor / Q, whatever the
 * length l. All water is taken to see the mean (plug flow, mixed across): a real chamber gives its worst part less, which the
 * maker's certificate tells. Source: radial model, Severin et al. 1984 (from memory), with the water factor.
 */
export function uvFluenceMjPerCm2({ uvcW, layerCm, absorbancePerCm }: UvChamber, flowLPerMin: number): number {
  const cm3PerS = (flowLPerMin * 1000) / 60;
  return (1000 * uvcW * layerCm * waterFactor(absorbancePerCm, layerCm)) / cm3PerS;
}

/** Largest flow at which the chamber still gives this fluence, L/min. */
export function largestFlowLPerMin(chamber: UvChamber, fluenceMjPerCm2: number): number {
  return uvFluenceMjPerCm2(chamber, 1) / fluenceMjPerCm2;
}
