/** What a person must know at the moment of handling. Shown where the product is weighed, mixed or dosed. */
export const CAUTIONS = {
  acid: 'Pour acid into water, never water into acid. Goggles, face shield, acid-proof gloves and apron; eyewash within reach. Acid on bicarbonate gives off carbon dioxide: ventilate.',
  alkaline: 'Caustic: burns eyes and skin. Add slowly to cold water, never to acid: it heats up. Goggles and gloves; eyewash within reach.',
  oxidising: 'Oxidiser: keep dry and away from organic matter, fuels, acids and heat; do not store beside combustible goods.',
  disinfectant: 'Oxidising disinfectant: never into a stock tank, never together with acid, chelates or organic matter. Goggles and gloves.',
  calcium: 'Concentrated calcium never meets concentrated phosphate or sulfate: they set solid and block lines. Rinse tools and pumps in between.',
  phosphateOrSulfate: 'Concentrated phosphate or sulfate never meets concentrated calcium: they set solid and block lines. Rinse tools and pumps in between.',
  chelate: 'Keep chelates dark, and away from strong acid and oxidisers, which destroy them.',
  ammonium: 'Ammonium with anything alkaline gives off ammonia gas: keep apart.',
  ultraviolet: 'UV-C burns skin and blinds: never look at a lamp that burns or open its chamber; switch off, lock and let it cool first. Lamps hold mercury: when one breaks, stop the flow, draw nothing from this tank, air the room and collect the pieces as the local rules for mercury say. Electricity and water: only on a circuit with a residual-current device.',
  heat: 'Pipes and solution of the heater scald: gloves and goggles at the heater, let it cool before it is opened, and fill a basin only with solution that has cooled to its water temperature.',
  dust: 'Weigh with dust mask, gloves and goggles.',
} as const satisfies Record<string, string>;

export type CautionClass = keyof typeof CAUTIONS;

/** Said with every caution: who has the last word. */
export const CAUTION_DEFERENCE = 'The safety data sheet of the product, local codes and licensed practice come before this advice.';
