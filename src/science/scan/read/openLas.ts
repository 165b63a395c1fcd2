import type { LazPerf } from 'laz-perf';
import type { Outcome } from '../../refusal.ts';
import { accepted, refused } from '../../refusal.ts';
import type { CloudFile } from './cloudFile.ts';
import { checkLength, refuseCloud } from './cloudFile.ts';
import { readLasHeader } from './lasHeader.ts';
import { LazStream } from './lazStream.ts';
import type { OpenedCloud } from './openedCloud.ts';
import { RecordStream } from './recordStream.ts';

/**
 * Opens a LAS file, or a LAZ file when the library that unpacks it is given; see openCloud. The points must end where the file
 * ends, or where the header says that other records begin.
 */
export function openLas(head: Uint8Array, file: CloudFile, library: LazPerf | undefined): Outcome<OpenedCloud> {
  const header = readLasHeader(head, file);
  if (!header.ok) return header;
  const { records, compressed, lastByte } = header.value;
  const opened = { format: 'las' as const, count: records.count };
  if (compressed) {
    if (library === undefined) return refused([refuseCloud('cloud-format-unknown', file.name, 'LAZ is not unpacked here. Export the cloud as LAS, PLY or PCD.')]);
    return accepted({ ...opened, startStream: () => new LazStream(records, file, library) });
  }
  const wrong = checkLength({ ...file, bytes: Math.min(file.bytes, lastByte) }, records.firstByte + records.count * records.recordBytes, true);
  if (wrong.length > 0) return refused(wrong);
  return accepted({ ...opened, records, startStream: () => new RecordStream(records, file) });
}
