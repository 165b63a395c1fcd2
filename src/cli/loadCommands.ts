import type { CliCommand } from './cliCommand.ts';

/** In the order of the help. */
const COMMANDS: Readonly<Record<string, () => Promise<CliCommand>>> = {
  plan: async () => (await import('./commands/planCommand.ts')).planCommand,
  sow: async () => (await import('./commands/sowCommand.ts')).sowCommand,
  check: async () => (await import('./commands/checkCommand.ts')).checkCommand,
  desk: async () => (await import('./commands/deskCommand.ts')).deskCommand,
  demo: async () => (await import('./commands/demoCommand.ts')).demoCommand,
  export: async () => (await import('./commands/exportCommand.ts')).exportCommand,
  verify: async () => (await import('./commands/verifyCommand.ts')).verifyCommand,
  water: async () => (await import('./commands/waterCommand.ts')).waterCommand,
  blend: async () => (await import('./commands/blendCommand.ts')).blendCommand,
  forecast: async () => (await import('./commands/forecastCommand.ts')).forecastCommand,
  scan: async () => (await import('./commands/scanCommand.ts')).scanCommand,
  schedule: async () => (await import('./commands/scheduleCommand.ts')).scheduleCommand,
};

/** The command that the line begins with, so that nothing else has to be loaded; all of them where it begins with none. */
export async function loadCommands(word: string | undefined): Promise<readonly CliCommand[]> {
  const one = word !== undefined && Object.hasOwn(COMMANDS, word) ? COMMANDS[word] : undefined;
  return Promise.all((one === undefined ? Object.values(COMMANDS) : [one]).map((load) => load()));
}
