import { useEffect, useState } from 'react';
import { askBytes } from '../../ask/askDesk.ts';
import { scanPath } from '../../ask/questions.ts';
import { readPoints } from '../picture/readPoints.ts';
import type { Relief } from './openRelief.ts';

const STRETCH = 250_000;

export interface PointsState { readonly kept?: number; readonly loaded: number; readonly error?: Error }

/** Fetches points stretch by stretch into a relief, up to `most`, while `wanted`. Any beginning of them is an even sample. */
export function usePoints(relief: Relief | undefined, basin: string, scan: string, wanted: boolean, most: number): PointsState {
  const [state, setState] = useState<PointsState & { readonly of?: Relief }>({ loaded: 0 });
  useEffect(() => {
    if (relief === undefined || !wanted) return undefined;
    let gone = false;
    const fetchOn = async (from: number): Promise<void> => {
      const stretch = readPoints(await askBytes(`${scanPath(basin, scan)}/points?from=${from}&count=${Math.min(STRETCH, most - from)}`));
      if (gone) return;
      relief.addPoints(stretch);
      const { kept, count } = stretch.header, loaded = from + count;
      setState({ of: relief, kept, loaded });
      if (count > 0 && loaded < Math.min(most, kept)) await fetchOn(loaded);
    };
    const begun = relief.pointsLoaded();
    if (begun < most) fetchOn(begun).catch((error: Error) => { if (!gone) setState((is) => ({ ...is, of: relief, error })); });
    return () => { gone = true; };
  }, [relief, wanted, basin, scan, most]);
  return state.of === relief ? state : { loaded: 0 };
}
