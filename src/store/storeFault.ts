/** What the world can do to a store. A fault is thrown; a refusal is returned. */
const STORE_FAULTS = {
  'engine-missing': { meaning: 'The database programs for this kind of computer are not installed, or do not run on it.', retryHelps: false },
  'folder-unusable': { meaning: 'The folder cannot hold a database: not writable, or its owner cannot be set.', retryHelps: false },
  'engine-failed': { meaning: 'The database did not start.', retryHelps: true },
  'engine-unreachable': { meaning: 'The database does not answer.', retryHelps: true },
  'login-refused': { meaning: 'The database does not let this program in, or not do what it must.', retryHelps: false },
  'database-unsuitable': { meaning: 'The database has a version or a setting that this program cannot use.', retryHelps: false },
  'disk-full': { meaning: 'There is no room left on the disk.', retryHelps: true },
  'lock-lost': { meaning: 'Another program took over this greenhouse.', retryHelps: false },
  'storage-damaged': { meaning: 'The database says that its files are damaged.', retryHelps: false },
  'store-closed': { meaning: 'The store was closed before the call.', retryHelps: false },
} as const satisfies Record<string, { meaning: string; retryHelps: boolean }>;

export type StoreFaultCode = keyof typeof STORE_FAULTS;

/** A fault of the store: which, what the cause was, and whether the same call may work later. Nothing that was acknowledged is lost by it. */
export class StoreFault extends Error {
  override readonly name = 'StoreFault';
  readonly fault: StoreFaultCode;
  readonly retryHelps: boolean;
  constructor(fault: StoreFaultCode, message: string, cause?: unknown) {
    super(message, cause === undefined ? undefined : { cause });
    this.fault = fault;
    this.retryHelps = STORE_FAULTS[fault].retryHelps;
  }
}

/** What the fault means in general, for logs and pages. */
export const meaningOf = (fault: StoreFaultCode): string => STORE_FAULTS[fault].meaning;
