import type { LazPerf } from 'laz-perf';
import type { Outcome } from '../../src/science/refusal.ts';
import type { PointCloud } from '../../src/science/scan/pointCloud.ts';
import { CLOUD_LIMITS } from '../../src/science/scan/read/cloudFile.ts';
import { openCloud } from '../../src/science/scan/read/openCloud.ts';

/** Reads a cloud that lies in memory as a program reads its file: the header first, then piece after piece. */
export function readWhole(bytes: Uint8Array, pieceBytes: () => number, library?: LazPerf): Outcome<PointCloud> {
  const opened = openCloud(bytes.subarray(0, CLOUD_LIMITS.headerBytes), { name: 'cloud', bytes: bytes.length }, library);
  if (!opened.ok) return opened;
  const stream = opened.value.startStream();
  for (let at = 0; at < bytes.length;) {
    const end = Math.min(bytes.length, at + pieceBytes());
    if (!stream.push(bytes.subarray(at, end))) break;
    at = end;
  }
  return stream.finish();
}
