import { scaleComposition } from '../science/chemistry/composition.ts';
import type { BasinState } from './state.ts';
import { NO_WATER, type WaterAmount } from './waterBook.ts';

/** What a basin held at its last filling, or when its plants last changed. Nothing where none is on record. */
export const filledWater = ({ filled }: BasinState): WaterAmount =>
  (filled === undefined ? NO_WATER : { litres: filled.volumeL, mmol: scaleComposition(filled.mmolPerL, filled.volumeL) });
