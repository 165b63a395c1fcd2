import type { Outcome } from '../../refusal.ts';
import { accepted, refused } from '../../refusal.ts';
import type { CloudFile } from './cloudFile.ts';
import { checkLength } from './cloudFile.ts';
import { WHITE_OF } from './fieldType.ts';
import type { OpenedCloud } from './openedCloud.ts';
import type { PlyElement, PlyHeader } from './plyHeader.ts';
import { readPlyHeader } from './plyHeader.ts';
import { PlyListStream } from './plyListStream.ts';
import { checkPlyLength, COLOUR_NAMES, findVertices, plyRecords } from './plyRecords.ts';
import { RecordStream } from './recordStream.ts';
import type { TextElement, TextPoint } from './textRows.ts';
import type { TextShape } from './textStream.ts';
import { TextStream } from './textStream.ts';

/** Opens a PLY file; see openCloud. */
export function openPly(head: Uint8Array, file: CloudFile): Outcome<OpenedCloud> {
  const header = readPlyHeader(head, file);
  if (!header.ok) return header;
  const vertices = findVertices(header.value, file);
  if (!vertices.ok) return vertices;
  if (header.value.coding === 'ascii') return openText(textShape(header.value, vertices.value), file);
  const wrong = checkPlyLength(header.value, file);
  if (wrong.length > 0) return refused(wrong);
  const records = plyRecords(header.value, vertices.value, head);
  const startStream = () => records === undefined ? new PlyListStream(header.value, vertices.value, file) : new RecordStream(records, file);
  return accepted({ format: 'ply', count: vertices.value.count, ...(records && { records }), startStream });
}

function openText(shape: TextShape, file: CloudFile): Outcome<OpenedCloud> {
  const wrong = checkLength(file, leastTextBytes(shape), false);
  if (wrong.length > 0) return refused(wrong);
  return accepted({ format: 'ply', count: shape.points.count, startStream: () => new TextStream(shape, file) });
}

/** Each number takes a digit and a gap; the last line may lack its end. */
const leastTextBytes = ({ firstByte, elements }: TextShape) => elements.reduce((sum, { count, lists }) => sum + count * lists.length * 2, firstByte - 1);

function textShape({ elements, firstByte, lastLine }: PlyHeader, vertices: PlyElement): TextShape {
  const rows = elements.filter(({ properties }) => properties.length > 0).map(textElement);
  const points = rows.find(({ name }) => name === vertices.name)!;
  return { firstByte, firstLine: lastLine.number + 1, lineEnd: lastLine.lineEnd, elements: rows, points, point: textPoint(vertices) };
}

const textElement = ({ name, count, properties }: PlyElement): TextElement => ({ name, count, lists: properties.map(({ listCount }) => listCount !== undefined) });

function textPoint({ properties }: PlyElement): TextPoint {
  const place = (wanted: string) => properties.findIndex(({ name, listCount }) => name === wanted && listCount === undefined);
  const position = { x: place('x'), y: place('y'), z: place('z') };
  for (const names of COLOUR_NAMES) {
    const [red, green, blue] = names.map(place);
    const type = properties[red!]?.type;
    if (type !== undefined && properties[green!]?.type === type && properties[blue!]?.type === type) return { ...position, colour: { red: red!, green: green!, blue: blue!, white: WHITE_OF[type] } };
  }
  return position;
}
