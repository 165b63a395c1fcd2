import { rmSync } from 'node:fs';
import type { ScanNote } from '../../greenhouse/scanNote.ts';
import { pictureFiles } from '../../store/scan/pictureFiles.ts';

/** Thinned clouds are large: so many of the newest scans of a basin keep theirs. Pictures and figures of all scans stay. */
const KEPT = 3;

/** Removes the thinned clouds of all but the newest scans of a basin. */
export function dropOldPoints(folder: string, scans: readonly ScanNote[]): void {
  for (const { scan } of scans.slice(0, -KEPT)) rmSync(pictureFiles(folder, scan).points, { force: true });
}
