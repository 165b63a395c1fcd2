import { StoreFault } from '../store/storeFault.ts';

/** What went wrong in the world or in the program, without its inside. */
export interface FaultWords {
  readonly fault: string;
  readonly message: string;
  readonly retryHelps: boolean;
}

const WORLD: Readonly<Record<string, { readonly message: string; readonly retryHelps: boolean }>> = {
  EACCES: { message: 'This program may not read or write there.', retryHelps: false },
  EPERM: { message: 'This program may not do that there.', retryHelps: false },
  ENOSPC: { message: 'The disk is full.', retryHelps: true },
  EROFS: { message: 'That place can only be read.', retryHelps: false },
  EMFILE: { message: 'Too many files are open.', retryHelps: true },
  EADDRINUSE: { message: 'Another program uses that port already; choose another with --port.', retryHelps: false },
};

/** An error as people may read it: which kind, one sentence, whether a second try may help. Never a stack trace. */
export function faultAnswer(error: unknown): FaultWords {
  if (error instanceof StoreFault) return { fault: error.fault, message: sentence(error.message), retryHelps: error.retryHelps };
  const code = error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : undefined;
  const known = code === undefined ? undefined : WORLD[code];
  if (code !== undefined && known !== undefined) return { fault: code, message: `${known.message}${placeOf(error)}`, retryHelps: known.retryHelps };
  const words = error instanceof Error ? error.message : String(error);
  return { fault: 'bug', message: `The program made a mistake of its own: ${sentence(words.split('\n')[0] ?? '')} Please report it with the files that led to it.`, retryHelps: false };
}

const sentence = (text: string): string => (/[.?!]$/.test(text) ? text : `${text}.`);

const placeOf = (error: unknown): string => (error instanceof Error && 'path' in error && typeof error.path === 'string' ? ` (${error.path})` : '');
