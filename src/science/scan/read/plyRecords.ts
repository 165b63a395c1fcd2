import type { Outcome, Refusal } from '../../refusal.ts';
import { accepted, refused } from '../../refusal.ts';
import type { PointRecords, RecordColour, RecordField } from '../pointRecords.ts';
import type { CloudFile } from './cloudFile.ts';
import { checkCount, checkLength, refuseCloud } from './cloudFile.ts';
import { BYTES_OF, WHITE_OF } from './fieldType.ts';
import { originOf } from './originOf.ts';
import type { PlyElement, PlyHeader } from './plyHeader.ts';

/** Names under which programs write the colour. */
export const COLOUR_NAMES = [['red', 'green', 'blue'], ['r', 'g', 'b'], ['diffuse_red', 'diffuse_green', 'diffuse_blue']] as const;

/** The element that holds the points; its count and its coordinates are checked. */
export function findVertices(header: PlyHeader, file: CloudFile): Outcome<PlyElement> {
  const vertices = header.elements.find(({ name }) => name === 'vertex');
  if (vertices === undefined) return refused([refuseCloud('value-missing', file.name, 'The header has no element "vertex", so there are no points.')]);
  const refusals: Refusal[] = checkCount(file, vertices.count);
  for (const axis of ['x', 'y', 'z']) {
    if (!vertices.properties.some(({ name, listCount }) => name === axis && listCount === undefined)) {
      refusals.push(refuseCloud('value-missing', file.name, `The points have no property "${axis}".`, { value: vertices.properties.map(({ name }) => name), limit: ['x', 'y', 'z'] }));
    }
  }
  return refusals.length > 0 ? refused(refusals) : accepted(vertices);
}

/** Bytes of an element without lists; with lists the least that it can be, and `exact` is false. An element of no entries takes none. */
export function elementBytes(element: PlyElement): { readonly bytes: number; readonly exact: boolean } {
  const record = element.properties.reduce((sum, { type, listCount }) => sum + BYTES_OF[listCount ?? type], 0);
  return { bytes: element.count * record, exact: element.count === 0 || element.properties.every(({ listCount }) => listCount === undefined) };
}

/** Refuses a binary file that is shorter than its header promises, or longer where that can be told. */
export function checkPlyLength(header: PlyHeader, file: CloudFile): Refusal[] {
  const parts = header.elements.map(elementBytes);
  return checkLength(file, parts.reduce((sum, { bytes }) => sum + bytes, header.firstByte), parts.every(({ exact }) => exact));
}

/** Records of one size, when no list stands in or before the points or after them; otherwise absent. Source of the layout: Turk 1994. */
export function plyRecords(header: PlyHeader, vertices: PlyElement, head: Uint8Array): PointRecords | undefined {
  if (header.coding === 'ascii' || !header.elements.every((element) => elementBytes(element).exact)) return undefined;
  const before = header.elements.slice(0, header.elements.indexOf(vertices));
  const firstByte = before.reduce((sum, element) => sum + elementBytes(element).bytes, header.firstByte);
  const records = { count: vertices.count, firstByte, recordBytes: elementBytes(vertices).bytes / vertices.count, littleEndian: header.coding === 'binary_little_endian', ...pointFields(vertices) };
  return { ...records, origin: originOf(records, head.subarray(firstByte)) };
}

/** Where position and colour stand in a point record; `offsets` of its properties when lists move them from record to record. */
export function pointFields(vertices: PlyElement, offsets = plainOffsets(vertices)): Pick<PointRecords, 'x' | 'y' | 'z' | 'colour'> {
  const fields = new Map<string, RecordField>();
  vertices.properties.forEach(({ name, type, listCount }, i) => { if (listCount === undefined) fields.set(name, { offset: offsets[i]!, type }); });
  return { x: fields.get('x')!, y: fields.get('y')!, z: fields.get('z')!, ...plyColour(fields) };
}

function plainOffsets(element: PlyElement): readonly number[] {
  let offset = 0;
  return element.properties.map(({ type }) => {
    offset += BYTES_OF[type];
    return offset - BYTES_OF[type];
  });
}

/** The colour of the points, when all three parts are there and of one type. */
function plyColour(fields: ReadonlyMap<string, RecordField>): { colour?: RecordColour } {
  for (const names of COLOUR_NAMES) {
    const [red, green, blue] = names.map((name) => fields.get(name));
    if (red !== undefined && green?.type === red.type && blue?.type === red.type) return { colour: { red, green, blue, white: WHITE_OF[red.type] } };
  }
  return {};
}
