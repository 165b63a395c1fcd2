const BITS = new DataView(new ArrayBuffer(4));

/**
 * 0x00RRGGBB of a colour that was written as text. Some programs print it as a whole number, others as the 32-bit floating-point number
 * with the same bits; those are all smaller than 1 (2.4e-38 at most), so the two cannot be mistaken for each other.
 */
export function unpackText(value: number): number {
  if (Math.abs(value) >= 1) return value >>> 0;
  BITS.setFloat32(0, value);
  return BITS.getUint32(0);
}
