/** Place of the point format in the header of LAS; its two highest bits mark packed points. */
const FORMAT_AT = 104;

/** True when a file begins like LAZ: its points must be unpacked with the library of loadLazPerf. */
export const isPackedLas = (head: Uint8Array): boolean => String.fromCharCode(...head.subarray(0, 4)) === 'LASF' && (head[FORMAT_AT] ?? 0) >= 64;
