import type { StoreFaultCode } from '../storeFault.ts';
import { StoreFault } from '../storeFault.ts';

/** SQLSTATE codes and classes (PostgreSQL manual, appendix A), system error codes of Node. */
const FAULT_BY_CODE: readonly (readonly [RegExp, StoreFaultCode])[] = [
  [/^(28...|42501|3D000)$/, 'login-refused'],
  [/^(53100|ENOSPC)$/, 'disk-full'],
  [/^(XX00[12])$/, 'storage-damaged'],
  [/^(08...|57P0.|53300|25006)$/, 'engine-unreachable'],
  [/^(ECONN|EPIPE|ETIMEDOUT|EHOST|ENET|ENOTFOUND|EAI_AGAIN|ENOENT)/, 'engine-unreachable'],
];

/** What the driver says when the connection broke, without a code. */
const BROKEN_CONNECTION = /connection terminated|connection ended|not queryable|timeout exceeded|timeout expired|client was closed/i;

const ENDED_POOL = /after calling end on the pool/;

const WORDS: Partial<Record<StoreFaultCode, string>> = {
  'login-refused': 'The database refuses this program',
  'disk-full': 'The disk of the database is full',
  'storage-damaged': 'The database reports damaged files; restore the last backup into a new folder',
  'engine-unreachable': 'The database does not answer',
};

/** The fault behind an error of the database driver. What is no fault of the world (wrong SQL, a broken rule) is a bug and comes back as it is. */
export function asStoreFault(error: unknown): unknown {
  if (error instanceof StoreFault || !(error instanceof Error)) return error;
  if (ENDED_POOL.test(error.message)) return new StoreFault('store-closed', 'The store is closed.', error);
  const { code } = error as { code?: unknown };
  const fault = typeof code === 'string' ? FAULT_BY_CODE.find(([form]) => form.test(code))?.[1] : undefined;
  const found = fault ?? (BROKEN_CONNECTION.test(error.message) ? 'engine-unreachable' : undefined);
  return found === undefined ? error : new StoreFault(found, `${WORDS[found]}: ${error.message || String(code)}`, error);
}

/** Whether the database was away, so that the same question may be answered a moment later. */
export const isAway = (error: unknown): boolean => error instanceof StoreFault && error.fault === 'engine-unreachable';
