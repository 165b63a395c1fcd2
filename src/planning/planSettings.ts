/** How hard planning tries where nobody says otherwise. */
export const DEFAULT_OPTIONS = { seed: 1, members: 100, iterations: 4_000 } as const;

/** The settings of one plan: a seed, members of each lot's ensemble, changes that the scheduler tries. */
export type PlanSettings = { readonly [K in keyof typeof DEFAULT_OPTIONS]: number };
