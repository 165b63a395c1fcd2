import { spawn } from 'node:child_process';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';

/** Lets the program workOnScans work on what it is given and kills it once it has said something. Returns all that it said. */
export function killAfter(given: readonly string[], when: (line: string) => boolean): Promise<string[]> {
  const child = spawn(process.execPath, ['--import', 'tsx', fileURLToPath(new URL('workOnScans.ts', import.meta.url)), ...given], { stdio: ['ignore', 'pipe', 'inherit'] });
  const lines: string[] = [];
  createInterface({ input: child.stdout }).on('line', (line) => {
    lines.push(line);
    if (when(line)) child.kill('SIGKILL');
  });
  return new Promise((resolve) => { child.once('close', () => resolve(lines)); });
}
