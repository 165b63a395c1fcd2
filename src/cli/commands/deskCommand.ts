import { accepted, type Outcome } from '../../science/refusal.ts';
import { startDesk } from '../../desk/startDesk.ts';
import type { CliCommand, CommandAnswer, GivenOptions, ProgramWorld } from '../cliCommand.ts';
import { refuseOption } from '../refuseOption.ts';

export const deskCommand: CliCommand = {
  name: 'desk', argument: 'DIR',
  options: [{ flags: '--port <number>', summary: 'Local port (4870 where absent; the next free one if it is taken; 0: any free one).' }],
  summary: 'Open the desk of a greenhouse folder on a local port, until it is stopped with Ctrl-C.',
  run: runDesk,
};

const USUAL_PORT = 4870;
const TRIES = 20;

async function runDesk(folder: string, options: GivenOptions, world: ProgramWorld): Promise<Outcome<CommandAnswer>> {
  const port = Number(options.port ?? USUAL_PORT);
  if (!Number.isInteger(port) || port < 0 || port > 65_535) return refuseOption('--port', String(options.port), 'a whole number from 0 to 65535');
  const desk = await openOnFreePort(folder, port, options.port === undefined ? TRIES : 1, world);
  if (!desk.ok) return desk;
  const { url, close } = desk.value;
  world.writeErr(`The desk is open at ${url}  (Ctrl-C closes it)\n`);
  await world.stopAsked;
  world.writeErr('Closing ...\n');
  await close();
  return accepted({ json: { url, closed: true }, sheet: 'Closed.' }, desk.warnings);
}

async function openOnFreePort(folder: string, port: number, tries: number, world: ProgramWorld): ReturnType<typeof startDesk> {
  try {
    return await startDesk({ folder, port, ...(world.serverUrl === undefined ? {} : { serverUrl: world.serverUrl }) });
  } catch (error) {
    const isTaken = error instanceof Error && 'code' in error && error.code === 'EADDRINUSE';
    if (!isTaken || tries <= 1) throw error;
    return openOnFreePort(folder, port + 1, tries - 1, world);
  }
}
