import { useEffect, useState } from 'react';
import { askBytes } from '../../ask/askDesk.ts';
import { scanPath } from '../../ask/questions.ts';
import { readPoints } from '../picture/readPoints.ts';
import type { Relief } from './openRelief.ts';

const STRETCH = 250_000;

export interface PointsState { readonly kept: number | undefined; readonly loaded: number; readonly error: Error | undefined }

/** Fetches points stretch by stretch into a relief, up to `most`, while `wanted`. Any beginning of them is an even sample. */
export function usePoints(relief: Relief | undefined, basin: string, scan: string, wanted: boolean, most: number): PointsState {
  const [state, setState] = useState<PointsState & { readonly of?: Relief }>({ kept: undefined, loaded: 0, error: undefined });
  const known = state.of === relief ? state : { kept: undefined, loaded: 0, error: undefined };
  const missing = known.kept === undefined ? most : Math.min(most, known.kept) - known.loaded;
  useEffect(() => {
    if (relief === undefined || !wanted || missing <= 0 || known.error !== undefined) return undefined;
    let gone = false;
    askBytes(`${scanPath(basin, scan)}/points?from=${known.loaded}&count=${Math.min(STRETCH, missing)}`)
      .then((bytes) => {
        if (gone) return;
        const stretch = readPoints(bytes);
        relief.addPoints(stretch);
        setState({ kept: stretch.header.count === 0 ? stretch.header.from : stretch.header.kept, loaded: stretch.header.from + stretch.header.count, error: undefined, of: relief });
      })
      .catch((error: Error) => { if (!gone) setState({ ...known, error, of: relief }); });
    return () => { gone = true; };
  }, [relief, wanted, basin, scan, known.loaded, missing]);
  return known;
}
