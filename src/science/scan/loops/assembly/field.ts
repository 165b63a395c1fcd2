// Places of the whole numbers of a cell; see heightField.ts.
export const STRIDE: i32 = 5;
export const POINTS: i32 = 0;
export const COLOURED: i32 = 1;
export const COLOURED_SUM: i32 = 2;
/** Highest and lowest coloured point, 16 bits each. */
export const COLOURED_ENDS: i32 = 3;
export const NEUTRAL_SUM: i32 = 4;
export const PER_MM: f64 = 16;

export function topOf(cell: usize): i32 { return load<i16>(cell + (COLOURED_ENDS << 2)); }
export function lowOf(cell: usize): i32 { return load<i16>(cell + (COLOURED_ENDS << 2) + 2); }
export function setTop(cell: usize, height: i32): void { store<i16>(cell + (COLOURED_ENDS << 2), <i16>height); }
export function setLow(cell: usize, height: i32): void { store<i16>(cell + (COLOURED_ENDS << 2) + 2, <i16>height); }
