import { type ChildProcess, spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { createInterface } from 'node:readline';

/** What a writer said. */
export interface Said {
  readonly open?: number;
  readonly log?: string;
  readonly refusals?: readonly { readonly code: string; readonly message: string; readonly value: unknown }[];
  /** A call that was acknowledged, with the hash of its last event. */
  readonly call?: string;
  readonly hash?: string;
  /** A reading that was acknowledged. */
  readonly place?: string;
}

/** A writer as a process of its own. */
export interface Writer {
  readonly child: ChildProcess;
  readonly said: readonly Said[];
  readonly errors: () => string;
  /** Waits until it has said something of a kind; fails when it ends before. */
  readonly until: (is: (said: Said) => boolean) => Promise<Said>;
  readonly ended: Promise<void>;
}

/** Starts test/store/programs/writeOn.ts as a process. */
export function runWriter(folder: string, greenhouse: string, serverUrl = '', run = 'run'): Writer {
  const child = spawn(process.execPath, ['--import', 'tsx', fileURLToPath(new URL('writeOn.ts', import.meta.url)), folder, greenhouse, serverUrl, run], { stdio: ['ignore', 'pipe', 'pipe'] });
  const said: Said[] = [];
  let errors = '';
  const waiting = new Set<() => void>();
  const wake = () => { for (const look of waiting) look(); };
  child.stderr.setEncoding('utf8').on('data', (text: string) => { errors += text; });
  createInterface({ input: child.stdout }).on('line', (line) => {
    // The last line of a killed program may be half of one.
    const parsed = parseLine(line);
    if (parsed !== undefined) said.push(parsed);
    wake();
  });
  let hasEnded = false;
  const ended = new Promise<void>((resolve) => {
    child.once('close', () => {
      hasEnded = true;
      wake();
      resolve();
    });
  });
  const until = (is: (said: Said) => boolean): Promise<Said> => new Promise((resolve, reject) => {
    const look = () => {
      const found = said.find(is);
      if (found === undefined && !hasEnded) return;
      waiting.delete(look);
      if (found === undefined) reject(new Error(`the writer ended: ${errors}`));
      else resolve(found);
    };
    waiting.add(look);
    look();
  });
  return { child, said, errors: () => errors, until, ended };
}

function parseLine(line: string): Said | undefined {
  try {
    return JSON.parse(line) as Said;
  } catch {
    return undefined;
  }
}
