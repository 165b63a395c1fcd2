import type { FieldType } from '../pointRecords.ts';

export const BYTES_OF: Readonly<Record<FieldType, number>> = { int8: 1, uint8: 1, int16: 2, uint16: 2, int32: 4, uint32: 4, float32: 4, float64: 8 };

/** The stored number that stands for full brightness. */
export const WHITE_OF: Readonly<Record<FieldType, number>> = {
  int8: 127, uint8: 255, int16: 32_767, uint16: 65_535, int32: 2_147_483_647, uint32: 4_294_967_295, float32: 1, float64: 1,
};

export function numberAt(view: DataView, at: number, type: FieldType, little: boolean): number {
  switch (type) {
    case 'float32': return view.getFloat32(at, little);
    case 'float64': return view.getFloat64(at, little);
    case 'uint8': return view.getUint8(at);
    case 'int8': return view.getInt8(at);
    case 'uint16': return view.getUint16(at, little);
    case 'int16': return view.getInt16(at, little);
    case 'uint32': return view.getUint32(at, little);
    case 'int32': return view.getInt32(at, little);
  }
}
