import type { LazPerf } from 'laz-perf';
import type { Outcome } from '../../refusal.ts';
import { refused } from '../../refusal.ts';
import type { CloudFile } from './cloudFile.ts';
import { refuseCloud } from './cloudFile.ts';
import { latin1 } from './headerLines.ts';
import type { OpenedCloud } from './openedCloud.ts';
import { openLas } from './openLas.ts';
import { openPcd } from './openPcd.ts';
import { openPly } from './openPly.ts';

/**
 * Opens a point cloud by the first bytes of its file (all of it, or at least CLOUD_LIMITS.headerBytes). The format is told by these, not
 * by the file's name. Refuses unknown formats, headers that break their grammar, absurd counts and lengths that contradict the header. LAZ needs
 * the library of loadLazPerf.
 */
export function openCloud(head: Uint8Array, file: CloudFile, library?: LazPerf): Outcome<OpenedCloud> {
  const start = latin1(head.subarray(0, 4));
  if (/^ply[\r\n ]/.test(start)) return openPly(head, file);
  if (start === 'LASF') return openLas(head, file, library);
  if (/^(#|VERS|FIEL)/.test(start)) return openPcd(head, file);
  return refused([refuseCloud('cloud-format-unknown', file.name, 'The file begins like none of PLY, PCD, LAS or LAZ. Export the cloud in one of these.', { value: latin1(head.subarray(0, 16)) })]);
}
