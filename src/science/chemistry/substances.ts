import type { Composition } from './composition.ts';

/** A point of a solubility curve, in the form in which it was published. */
export type SolubilityPoint =
  /** Grams of the substance per litre of solution. */
  | { readonly temperatureC: number; readonly gPerL: number }
  /** Grams, without water of crystallisation, per 100 g of water. */
  | { readonly temperatureC: number; readonly anhydrousGPer100gWater: number };

/** How the warehouse must keep it. */
export type StorageClass = 'ordinary' | 'oxidising' | 'corrosive' | 'corrosive and oxidising';

export interface Substance {
  readonly formula: string;
  /** The same without water of crystallisation, where the formula has any. */
  readonly anhydrous?: string;
  /** Moles of each component in one mole of the formula. Acids carry negative, bases positive alkalinity (HCO3). */
  readonly components: Composition;
  readonly storage: StorageClass;
  readonly kind: 'salt' | 'acid' | 'base' | 'chelate' | 'disinfectant';
  readonly solubility?: readonly SolubilityPoint[];
}

const perLitre = (at5: number, at10: number, at20: number): SolubilityPoint[] =>
  [{ temperatureC: 5, gPerL: at5 }, { temperatureC: 10, gPerL: at10 }, { temperatureC: 20, gPerL: at20 }];
const anhydrous = (at0: number, at10: number, at20: number): SolubilityPoint[] =>
  [[0, at0], [10, at10], [20, at20]].map(([temperatureC, g]) => ({ temperatureC: temperatureC!, anhydrousGPer100gWater: g! }));

/**
 * What fertilisers are made of. Formulas fix composition and molar mass; each is electrically neutral in terms of COMPONENTS.
 * Solubilities per litre: manufacturers' fertigation table (Giri 2015); per 100 g of water: CRC Handbook (from memory).
 * Storage: GHS classes as on common safety data sheets (from memory); the sheet of the product at hand decides.
 */
export const SUBSTANCES = {
  'calcium-nitrate-tetrahydrate': { formula: 'Ca(NO3)2·4H2O', anhydrous: 'Ca(NO3)2', components: { Ca: 1, NO3: 2 }, storage: 'oxidising', kind: 'salt', solubility: anhydrous(102, 115, 129) },
  /** What is sold to growers as calcium nitrate: not the tetrahydrate, and it brings ammonium. */
  'calcium-ammonium-nitrate-decahydrate': { formula: '5Ca(NO3)2·NH4NO3·10H2O', components: { Ca: 5, NO3: 11, NH4: 1 }, storage: 'ordinary', kind: 'salt', solubility: perLitre(1020, 1130, 1290) },
  'calcium-chloride-dihydrate': { formula: 'CaCl2·2H2O', anhydrous: 'CaCl2', components: { Ca: 1, Cl: 2 }, storage: 'ordinary', kind: 'salt', solubility: anhydrous(59.5, 64.7, 74.5) },
  'potassium-nitrate': { formula: 'KNO3', components: { K: 1, NO3: 1 }, storage: 'oxidising', kind: 'salt', solubility: perLitre(133, 170, 209) },
  'potassium-sulfate': { formula: 'K2SO4', components: { K: 2, SO4: 1 }, storage: 'ordinary', kind: 'salt', solubility: perLitre(80, 90, 111) },
  'potassium-chloride': { formula: 'KCl', components: { K: 1, Cl: 1 }, storage: 'ordinary', kind: 'salt', solubility: perLitre(229, 238, 255) },
  'potassium-dihydrogen-phosphate': { formula: 'KH2PO4', components: { K: 1, P: 1 }, storage: 'ordinary', kind: 'salt', solubility: perLitre(110, 180, 230) },
  'ammonium-dihydrogen-phosphate': { formula: 'NH4H2PO4', components: { NH4: 1, P: 1 }, storage: 'ordinary', kind: 'salt', solubility: perLitre(250, 295, 374) },
  'ammonium-nitrate': { formula: 'NH4NO3', components: { NH4: 1, NO3: 1 }, storage: 'oxidising', kind: 'salt', solubility: anhydrous(118, 150, 192) },
  'ammonium-sulfate': { formula: '(NH4)2SO4', components: { NH4: 2, SO4: 1 }, storage: 'ordinary', kind: 'salt', solubility: perLitre(710, 730, 750) },
  'magnesium-sulfate-heptahydrate': { formula: 'MgSO4·7H2O', anhydrous: 'MgSO4', components: { Mg: 1, SO4: 1 }, storage: 'ordinary', kind: 'salt', solubility: anhydrous(22, 28.2, 33.7) },
  'magnesium-nitrate-hexahydrate': { formula: 'Mg(NO3)2·6H2O', anhydrous: 'Mg(NO3)2', components: { Mg: 1, NO3: 2 }, storage: 'oxidising', kind: 'salt', solubility: perLitre(680, 690, 710) },
  'sodium-chloride': { formula: 'NaCl', components: { Na: 1, Cl: 1 }, storage: 'ordinary', kind: 'salt', solubility: anhydrous(35.7, 35.8, 35.9) },
  'manganese-sulfate-monohydrate': { formula: 'MnSO4·H2O', anhydrous: 'MnSO4', components: { Mn: 1, SO4: 1 }, storage: 'ordinary', kind: 'salt', solubility: anhydrous(52.9, 59.7, 62.9) },
  'manganese-sulfate-tetrahydrate': { formula: 'MnSO4·4H2O', anhydrous: 'MnSO4', components: { Mn: 1, SO4: 1 }, storage: 'ordinary', kind: 'salt', solubility: anhydrous(52.9, 59.7, 62.9) },
  'zinc-sulfate-heptahydrate': { formula: 'ZnSO4·7H2O', anhydrous: 'ZnSO4', components: { Zn: 1, SO4: 1 }, storage: 'ordinary', kind: 'salt', solubility: anhydrous(41.6, 47.2, 53.8) },
  'zinc-sulfate-monohydrate': { formula: 'ZnSO4·H2O', anhydrous: 'ZnSO4', components: { Zn: 1, SO4: 1 }, storage: 'ordinary', kind: 'salt', solubility: anhydrous(41.6, 47.2, 53.8) },
  'copper-sulfate-pentahydrate': { formula: 'CuSO4·5H2O', anhydrous: 'CuSO4', components: { Cu: 1, SO4: 1 }, storage: 'ordinary', kind: 'salt', solubility: anhydrous(14, 17.2, 20.5) },
  'boric-acid': { formula: 'H3BO3', components: { B: 1 }, storage: 'ordinary', kind: 'salt', solubility: anhydrous(2.67, 3.72, 4.9) },
  borax: { formula: 'Na2B4O7·10H2O', anhydrous: 'Na2B4O7', components: { Na: 2, B: 4, HCO3: 2 }, storage: 'ordinary', kind: 'salt', solubility: anhydrous(1.1, 1.6, 2.6) },
  'sodium-molybdate-dihydrate': { formula: 'Na2MoO4·2H2O', anhydrous: 'Na2MoO4', components: { Na: 2, Mo: 1 }, storage: 'ordinary', kind: 'salt', solubility: anhydrous(44, 64.7, 65) },
  /** Sodium salts of the ferric chelates; the grade states iron by mass, the agent's own mass does not matter here. */
  'iron-edta': { formula: 'Fe', components: { Fe: 1, Na: 1 }, storage: 'ordinary', kind: 'chelate', solubility: [{ temperatureC: 20, gPerL: 70 }] },
  'iron-dtpa': { formula: 'Fe', components: { Fe: 1, Na: 1 }, storage: 'ordinary', kind: 'chelate', solubility: [{ temperatureC: 20, gPerL: 100 }] },
  'iron-eddha': { formula: 'Fe', components: { Fe: 1, Na: 1 }, storage: 'ordinary', kind: 'chelate', solubility: [{ temperatureC: 20, gPerL: 60 }] },
  'nitric-acid': { formula: 'HNO3', components: { NO3: 1, HCO3: -1 }, storage: 'corrosive and oxidising', kind: 'acid' },
  'phosphoric-acid': { formula: 'H3PO4', components: { P: 1, HCO3: -1 }, storage: 'corrosive', kind: 'acid' },
  'sulfuric-acid': { formula: 'H2SO4', components: { SO4: 1, HCO3: -2 }, storage: 'corrosive', kind: 'acid' },
  'potassium-hydroxide': { formula: 'KOH', components: { K: 1, HCO3: 1 }, storage: 'corrosive', kind: 'base', solubility: anhydrous(95.7, 103, 112) },
  'potassium-bicarbonate': { formula: 'KHCO3', components: { K: 1, HCO3: 1 }, storage: 'ordinary', kind: 'base', solubility: anhydrous(22.5, 27.4, 33) },
  'potassium-silicate': { formula: 'K2SiO3', components: { K: 2, Si: 1, HCO3: 2 }, storage: 'corrosive', kind: 'base' },
  'hydrogen-peroxide': { formula: 'H2O2', components: {}, storage: 'corrosive and oxidising', kind: 'disinfectant' },
} as const satisfies Record<string, Substance>;

export type SubstanceId = keyof typeof SUBSTANCES;

export const substanceOf = (id: SubstanceId): Substance => SUBSTANCES[id];
