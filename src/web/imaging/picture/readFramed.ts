/** A binary answer of the desk: its header, and where the arrays begin. */
export interface Framed<H> { readonly header: H; readonly from: number }

/** Reads the Uint32 (little-endian) length and the JSON that stand before the arrays. Throws where the answer is cut off. */
export function readFramed<H>(bytes: ArrayBuffer): Framed<H> {
  const length = bytes.byteLength < 4 ? 0 : new DataView(bytes).getUint32(0, true);
  if (length === 0 || length % 4 !== 0 || 4 + length > bytes.byteLength) throw new Error('The picture came incomplete.');
  return { header: JSON.parse(new TextDecoder().decode(new Uint8Array(bytes, 4, length))) as H, from: 4 + length };
}
