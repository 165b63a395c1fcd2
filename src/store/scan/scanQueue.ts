import type { Refusal } from '../../science/refusal.ts';

/** A cloud that arrived. */
export interface ArrivedCloud {
  readonly sha256: string;
  readonly name: string;
  readonly bytes: number;
  /** When the file was last changed, ms since 1970. */
  readonly modifiedMs: number;
  /** Absent where the cloud does not say. */
  readonly basin?: string;
  readonly takenAt?: string;
  /** UTC instant. */
  readonly arrivedAt: string;
}

/** A cloud in the queue. */
export interface QueuedCloud extends ArrivedCloud {
  readonly state: 'queued' | 'running' | 'done' | 'refused';
  /** How often work on it was begun since it arrived. */
  readonly attempt: number;
  readonly share: number;
  readonly step?: string;
  readonly endedAt?: string;
  readonly refusals?: readonly Refusal[];
}

/** Work on scans that waits in the database: several workers may take from it, and what a worker leaves when it dies is taken again. */
export interface ScanQueue {
  /** Whether a file of this name, size and time was looked at before, so that its bytes need not be read again. */
  readonly knowsFile: (file: Pick<ArrivedCloud, 'name' | 'bytes' | 'modifiedMs'>) => Promise<boolean>;
  /** Puts a cloud in. The same bytes twice are one scan: `known`; a cloud that was refused and is given again is tried again. */
  readonly arrive: (cloud: ArrivedCloud) => Promise<'queued' | 'known' | 'again'>;
  /** Takes the cloud that was scanned first and that nobody works on, other than those named; of one basin only one at a time, since each scan builds on the one before. */
  readonly take: (owner: string, except?: readonly string[]) => Promise<QueuedCloud | undefined>;
  /** Says that work goes on; false when somebody else has taken the cloud over. */
  readonly beat: (sha256: string, owner: string, share: number, step: string) => Promise<boolean>;
  /** Ends the work; false when somebody else has taken the cloud over. */
  readonly finish: (sha256: string, owner: string, endedAt: string, refusals?: readonly Refusal[]) => Promise<boolean>;
  /** Puts a cloud back; `blameless` where the work was ended from outside and does not count as an attempt. */
  readonly putBack: (sha256: string, owner: string, blameless: boolean) => Promise<void>;
  /** What waits or is worked on, and what ended since an instant; in the order in which clouds arrived. */
  readonly list: (endedSince: string) => Promise<readonly QueuedCloud[]>;
}
