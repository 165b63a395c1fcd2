import { useQuery, type UseQueryResult } from '@tanstack/react-query';
import { askBytes } from '../ask/askDesk.ts';
import { scanPath } from '../ask/questions.ts';
import { readHeightPicture, type HeightPicture } from './picture/heightPicture.ts';

/** The height field of a scan; it never changes once it is there. Nothing is asked for where `scan` is undefined. */
export function useHeightPicture(basin: string, scan: string | undefined): UseQueryResult<HeightPicture> {
  return useQuery({
    queryKey: ['picture', basin, scan], enabled: scan !== undefined, staleTime: Number.POSITIVE_INFINITY, structuralSharing: false,
    queryFn: async () => readHeightPicture(await askBytes(`${scanPath(basin, scan ?? '')}/field`)),
  });
}
