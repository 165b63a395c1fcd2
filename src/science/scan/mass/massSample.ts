/** What is known of a plant whose mass is wanted. Traits are positive; their names and units are the caller's (say areaMm2, heightP95Mm). */
export interface MassPlant {
  readonly cultivar: string;
  /** Days since sowing. */
  readonly ageDays: number;
  /** The harvest or sampling day that the plant belongs to: what its light and climate did to mass per size is common to its plants. */
  readonly occasion?: string;
  readonly traits: Readonly<Record<string, number>>;
}

/** A plant that was weighed by itself. */
export interface MassSample extends MassPlant { readonly massG: number }

/** Plants that were weighed together, as harvest scales do with a raft. */
export interface WeighedTogether { readonly plants: readonly MassPlant[]; readonly massG: number }
