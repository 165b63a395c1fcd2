import { z } from 'zod';
import { identifier, quantity, quantityOr, words } from './quantity.ts';

const product = z.strictObject({
  id: identifier,
  title: words('Name on the bag'),
  salt: words('Formula of the salt, acid or chelate as the chemistry table names it, for example KNO3 or Ca(NO3)2.4H2O'),
  purityPct: quantityOr({ unit: '%', min: 1, max: 100, default: 100, meaning: 'Share of the bag (w/w) that is this salt' }),
  densityKgPerL: quantity({ unit: 'kg/L', min: 0.7, max: 2.2, meaning: 'Liquids: density at 20 C, so that a sheet can say millilitres' }).optional(),
  pricePerKg: quantityOr({ unit: '1/kg', min: 0, max: 1000, default: 0, meaning: 'Price in the greenhouse currency' }),
  kgCo2ePerKg: quantity({ unit: 'kg/kg', min: 0, max: 50, meaning: 'Emissions of making one kilogram' }).optional(),
  kgCo2eSource: words('Where that figure comes from').optional(),
  lotCode: words('Lot of the bag in use').optional(),
});

/** fertilisers.yaml: the products on the shelf. */
export const productsFile = z.strictObject({ products: z.array(product).min(1) })
  .meta({ title: 'fertilisers.yaml', description: 'Fertilisers, acids and chelates as bought' });

export type ProductsFile = z.output<typeof productsFile>;
export type ProductDescription = ProductsFile['products'][number];
