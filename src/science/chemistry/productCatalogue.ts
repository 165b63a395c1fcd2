import type { FertiliserProduct } from './fertiliserProducts.ts';
import type { SubstanceId } from './substances.ts';

const STRENGTHS = 'strength and density at 20 C: CRC Handbook (from memory)';
const GRADES = 'typical horticultural grade as on suppliers\' labels';

const solid = (id: string, name: string, substance: SubstanceId, massFraction: number): FertiliserProduct =>
  ({ id, name, substance, grade: { by: 'purity', massFraction }, form: 'solid', source: GRADES });
const chelate = (id: string, name: string, substance: SubstanceId, massFraction: number): FertiliserProduct =>
  ({ id, name, substance, grade: { by: 'element', component: 'Fe', massFraction }, form: 'solid', source: GRADES });
const liquid = (id: string, name: string, substance: SubstanceId, massFraction: number, densityKgPerL: number): FertiliserProduct =>
  ({ id, name, substance, grade: { by: 'purity', massFraction }, form: 'liquid', densityKgPerL, source: STRENGTHS });

/** Fertilisers and acids as commonly bought. A greenhouse file may list its own instead. */
export const PRODUCT_CATALOGUE: readonly FertiliserProduct[] = [
  { id: 'calcium-nitrate', name: 'Calcium nitrate, 15.5 % N, 19 % Ca', substance: 'calcium-ammonium-nitrate-decahydrate',
    grade: { by: 'label', massFractions: { 'NO3-N': 0.144, 'NH4-N': 0.011, Ca: 0.19 } }, form: 'solid', source: GRADES },
  solid('calcium-chloride', 'Calcium chloride dihydrate', 'calcium-chloride-dihydrate', 0.99),
  solid('potassium-nitrate', 'Potassium nitrate 13-0-46', 'potassium-nitrate', 0.985),
  solid('potassium-sulfate', 'Potassium sulfate 0-0-52', 'potassium-sulfate', 0.96),
  solid('potassium-chloride', 'Potassium chloride', 'potassium-chloride', 0.99),
  solid('monopotassium-phosphate', 'Monopotassium phosphate 0-52-34', 'potassium-dihydrogen-phosphate', 0.99),
  solid('monoammonium-phosphate', 'Monoammonium phosphate 12-61-0', 'ammonium-dihydrogen-phosphate', 0.985),
  solid('ammonium-nitrate', 'Ammonium nitrate 34 % N', 'ammonium-nitrate', 0.98),
  solid('ammonium-sulfate', 'Ammonium sulfate 21 % N', 'ammonium-sulfate', 0.99),
  solid('magnesium-sulfate', 'Magnesium sulfate heptahydrate', 'magnesium-sulfate-heptahydrate', 0.99),
  solid('magnesium-nitrate', 'Magnesium nitrate hexahydrate', 'magnesium-nitrate-hexahydrate', 0.99),
  solid('manganese-sulfate', 'Manganese sulfate, 32 % Mn', 'manganese-sulfate-monohydrate', 0.985),
  solid('zinc-sulfate', 'Zinc sulfate heptahydrate, 22.7 % Zn', 'zinc-sulfate-heptahydrate', 0.995),
  solid('copper-sulfate', 'Copper sulfate pentahydrate, 25 % Cu', 'copper-sulfate-pentahydrate', 0.985),
  solid('boric-acid', 'Boric acid, 17.4 % B', 'boric-acid', 0.995),
  solid('borax', 'Borax, 11.3 % B', 'borax', 0.995),
  solid('sodium-molybdate', 'Sodium molybdate, 39 % Mo', 'sodium-molybdate-dihydrate', 0.985),
  chelate('iron-edta-13', 'Iron EDTA, 13 % Fe', 'iron-edta', 0.13),
  chelate('iron-dtpa-11', 'Iron DTPA, 11 % Fe', 'iron-dtpa', 0.11),
  chelate('iron-dtpa-6', 'Iron DTPA, 6 % Fe', 'iron-dtpa', 0.06),
  chelate('iron-eddha-6', 'Iron EDDHA, 6 % Fe', 'iron-eddha', 0.06),
  liquid('nitric-acid-38', 'Nitric acid 38 %', 'nitric-acid', 0.38, 1.234),
  liquid('nitric-acid-60', 'Nitric acid 60 %', 'nitric-acid', 0.6, 1.367),
  liquid('phosphoric-acid-59', 'Phosphoric acid 59 %', 'phosphoric-acid', 0.59, 1.42),
  liquid('phosphoric-acid-85', 'Phosphoric acid 85 %', 'phosphoric-acid', 0.85, 1.69),
  liquid('sulfuric-acid-37', 'Sulfuric acid 37 %', 'sulfuric-acid', 0.37, 1.276),
  liquid('potassium-hydroxide-50', 'Potassium hydroxide 50 %', 'potassium-hydroxide', 0.5, 1.51),
  solid('potassium-bicarbonate', 'Potassium bicarbonate', 'potassium-bicarbonate', 0.99),
];
