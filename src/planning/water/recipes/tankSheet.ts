import { CAUTION_DEFERENCE, CAUTIONS } from '../../../science/chemistry/cautions.ts';
import { scaleComposition, type Composition } from '../../../science/chemistry/composition.ts';
import type { FertiliserProduct } from '../../../science/chemistry/fertiliserProducts.ts';
import { cautionsOf } from '../../../science/chemistry/incompatibilities.ts';
import { mixingSheet, type MixingStep } from '../../../science/chemistry/mixingSheet.ts';
import type { Refusal } from '../../../science/refusal.ts';
import { shown } from '../../words/plainWords.ts';
import { waterFigures } from '../waterFigures.ts';

/** How one tank of stock is made, step by step, for the person who makes it. */
export interface TankSheet {
  readonly id: string;
  readonly title: string;
  /** Litres of finished stock when all steps are done. */
  readonly fullL: number;
  /** Litres of the same stock that are in the tank before. */
  readonly presentL: number;
  /** Empty where the tank must not be made: see `refusals`. */
  readonly steps: readonly SheetStep[];
  /** What a litre of the stock holds beside the water's own. */
  readonly mmolPerL: Composition;
  readonly refusals: readonly Refusal[];
  readonly warnings: readonly Refusal[];
  /** Conductivity at 25 C of a litre of the stock in 100 L of pure water: a check that the right things went in. Absent for acid and base. */
  readonly dilutedMsPerCm25?: number;
  /** What was looked at before the steps were written. */
  readonly checked: string;
  /** What the full tank makes and what is left over, one sentence each. */
  readonly yields: readonly string[];
  readonly deference: string;
  readonly why: string;
}

export interface SheetStep {
  readonly words: string;
  readonly product?: string;
  readonly title?: string;
  readonly lot?: string;
  readonly grams?: number;
  readonly millilitres?: number;
  /** Said here for the first time on this sheet, before the product is touched. */
  readonly cautions: readonly string[];
  /** Earlier steps whose cautions hold here again, counted from 1. */
  readonly cautionsOfSteps: readonly number[];
}

export interface SheetTank {
  readonly id: string;
  readonly title: string;
  readonly products: readonly FertiliserProduct[];
  /** Grams that go in now. */
  readonly gramsByProduct: Readonly<Record<string, number>>;
  readonly mmolPerL: Composition;
  readonly fullL: number;
  readonly presentL: number;
  readonly checks: readonly Refusal[];
  readonly coldestC: number;
  readonly yields: readonly string[];
}

/** The sheet of one tank. A tank with an error among its checks gets no steps. */
export function tankSheet(tank: SheetTank): TankSheet {
  const { id, title, fullL, presentL, mmolPerL, checks, coldestC, yields } = tank;
  const refusals = checks.filter(({ severity }) => severity === 'error');
  return {
    id, title, fullL, presentL, mmolPerL, refusals, ...dilutedOf(mmolPerL), warnings: checks.filter(({ severity }) => severity === 'warning'),
    steps: refusals.length > 0 || fullL <= presentL ? [] : wordSteps(tank),
    checked: `No two products that must be kept apart; nothing above 75 % of what dissolves at ${shown(coldestC, 1)} °C; gypsum, brushite and struvite below their limits at ${shown(coldestC, 1)} and 30 °C, less a margin of 0.3 in saturation because stocks lie outside the models.`,
    yields, deference: CAUTION_DEFERENCE, why: 'mixing-sheet',
  };
}

/** Alkalinity of a stock beyond this makes it an acid or a base, mmol/L: its diluted conductivity is that of hydrogen ions, not of nutrients. */
const NEUTRAL_MMOL_PER_L = 5;

function dilutedOf(mmolPerL: Composition): { dilutedMsPerCm25?: number } {
  if (Math.abs(mmolPerL.HCO3 ?? 0) > NEUTRAL_MMOL_PER_L) return {};
  return { dilutedMsPerCm25: waterFigures(scaleComposition(mmolPerL, 1 / 101)).ecMsPerCm25 };
}

function wordSteps({ id, products, gramsByProduct, mmolPerL, fullL, presentL }: SheetTank): SheetStep[] {
  const { steps } = mixingSheet({ tanks: [{ id, gramsByProduct, mmolPerL }] }, products, fullL, presentL);
  const byId = new Map(products.map((product) => [product.id, product]));
  const saidAt = new Map<string, number>();
  return steps.map((step, i) => {
    const fresh = step.cautions.filter((caution) => !saidAt.has(caution));
    const again = [...new Set(step.cautions.flatMap((caution) => saidAt.get(caution) ?? []))];
    fresh.forEach((caution) => saidAt.set(caution, i + 1));
    return { ...wordStep(step, presentL, byId), cautions: fresh, cautionsOfSteps: again };
  });
}

function wordStep(step: MixingStep, presentL: number, byId: ReadonlyMap<string, FertiliserProduct>): Omit<SheetStep, 'cautions' | 'cautionsOfSteps'> {
  const litres = shown(step.toVolumeL ?? 0, 1);
  if (step.action === 'fill') return { words: presentL > 0 ? `Read the level (about ${shown(presentL, 0)} L expected), then fill with water to ${litres} L.` : `Rinse the empty tank, then fill with water to ${litres} L.` };
  if (step.action === 'top-up') return { words: `Top up with water to ${litres} L, stir, and write name, date and lots on the tank.` };
  const product = byId.get(step.productId!)!;
  const isAcid = cautionsOf(product).includes('acid');
  return {
    words: isAcid ? `Pour ${product.name} slowly into the water.` : `Add ${product.name} and stir until it is dissolved.`,
    product: product.id, title: product.name, grams: step.grams!,
    ...(step.millilitres === undefined ? {} : { millilitres: step.millilitres }), ...(step.lot === undefined ? {} : { lot: step.lot }),
  };
}

/** Said on top of every sheet. */
export const SHEET_CAUTIONS: readonly string[] = [
  CAUTIONS.dust.replace('Weigh', 'Weigh and mix'),
  'Stirrers and pumps only on a circuit with a residual-current device; dry hands before switching.',
  'One tank at a time; rinse scoop, scale and hose between tanks.',
];
