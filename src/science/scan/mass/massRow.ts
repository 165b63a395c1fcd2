/** One observation for the regression: the row over all columns, ln of the mass, and how many single plants it is worth (1 / variance). */
export interface MassRow { readonly row: Float64Array; readonly lnMass: number; readonly weight: number }
