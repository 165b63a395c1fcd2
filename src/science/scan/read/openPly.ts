import type { Outcome } from '../../refusal.ts';
import { accepted, refused } from '../../refusal.ts';
import type { CloudFile } from './cloudFile.ts';
import { refuseCloud } from './cloudFile.ts';
import type { OpenedCloud } from './openedCloud.ts';
import { readPlyHeader } from './plyHeader.ts';
import { checkPlyLength, findVertices, plyRecords } from './plyRecords.ts';
import { RecordStream } from './recordStream.ts';

/** Opens a PLY file; see openCloud. */
export function openPly(head: Uint8Array, file: CloudFile): Outcome<OpenedCloud> {
  const header = readPlyHeader(head, file);
  if (!header.ok) return header;
  const vertices = findVertices(header.value, file);
  if (!vertices.ok) return vertices;
  const wrong = checkPlyLength(header.value, file);
  if (wrong.length > 0) return refused(wrong);
  const records = plyRecords(header.value, vertices.value, head);
  if (records === undefined) return refused([refuseCloud('cloud-format-unknown', file.name, 'PLY files in ascii or with lists are not read yet.')]);
  return accepted({ format: 'ply', count: records.count, records, startStream: () => new RecordStream(records, file) });
}
