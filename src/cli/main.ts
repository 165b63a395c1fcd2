import { blendCommand } from './commands/blendCommand.ts';
import { checkCommand } from './commands/checkCommand.ts';
import { demoCommand } from './commands/demoCommand.ts';
import { deskCommand } from './commands/deskCommand.ts';
import { exportCommand } from './commands/exportCommand.ts';
import { forecastCommand } from './commands/forecastCommand.ts';
import { planCommand } from './commands/planCommand.ts';
import { scheduleCommand } from './commands/scheduleCommand.ts';
import { scanCommand } from './commands/scanCommand.ts';
import { verifyCommand } from './commands/verifyCommand.ts';
import { waterCommand } from './commands/waterCommand.ts';
import { runProgram } from './runProgram.ts';

const commands = [planCommand, checkCommand, deskCommand, demoCommand, exportCommand, verifyCommand, waterCommand, blendCommand, forecastCommand, scheduleCommand, scanCommand];

const stopAsked = new Promise<void>((resolve) => {
  for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => resolve());
});

const status = await runProgram(commands, process.argv.slice(2), {
  writeOut: (text) => void process.stdout.write(text),
  writeErr: (text) => void process.stderr.write(text),
  nowAt: () => new Date().toISOString(),
  stopAsked,
  ...(process.env.WATERMEADOW_DATABASE_URL === undefined ? {} : { serverUrl: process.env.WATERMEADOW_DATABASE_URL }),
});
// Lets what was written reach a pipe before the program ends.
process.exitCode = status;
process.stdout.write('', () => process.stderr.write('', () => process.exit(status)));
