/** What the address of a scan page says besides the basin. */
export interface ScanSearch {
  /** The newest where absent. */
  readonly scan: string | undefined;
  /** Another scan to compare it with. */
  readonly with: string | undefined;
  /** Raft and position of the plant that is picked: "2-14". */
  readonly plant: string | undefined;
}

/** The newest scan of a basin, nothing picked. */
export const NEWEST_SCAN: ScanSearch = { scan: undefined, with: undefined, plant: undefined };

const text = (value: unknown): string | undefined => (typeof value === 'string' && value !== '' ? value : undefined);

/** Reads the part of the address behind the question mark; what is not known there is left out. */
export const readScanSearch = (search: Record<string, unknown>): ScanSearch => ({ scan: text(search.scan), with: text(search.with), plant: text(search.plant) });
