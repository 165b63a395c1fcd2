import { loadCommands } from './loadCommands.ts';
import { runProgram } from './runProgram.ts';

const stopAsked = new Promise<void>((resolve) => {
  for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => resolve());
});

const status = await runProgram(await loadCommands(process.argv[2]), process.argv.slice(2), {
  writeOut: (text) => void process.stdout.write(text),
  writeErr: (text) => void process.stderr.write(text),
  nowAt: () => new Date().toISOString(),
  stopAsked,
  ...(process.env.WATERMEADOW_DATABASE_URL === undefined ? {} : { serverUrl: process.env.WATERMEADOW_DATABASE_URL }),
});
// Lets what was written reach a pipe before the program ends.
process.exitCode = status;
process.stdout.write('', () => process.stderr.write('', () => process.exit(status)));
