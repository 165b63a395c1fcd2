import { Command, CommanderError } from 'commander';
import type { Outcome, Refusal } from '../science/refusal.ts';
import { refused } from '../science/refusal.ts';
import type { CliCommand, CommandAnswer, GivenOptions, ProgramWorld } from './cliCommand.ts';
import { faultAnswer } from './faultAnswer.ts';
import { refusalSheet } from './sheets/refusalSheet.ts';

/** 0 done, 1 refused (the list of refusals says why), 2 fault. */
export type ExitStatus = 0 | 1 | 2;

/**
 * Runs one command line. With --json standard output gets exactly one JSON value: the answer, or {"refusals": [...]}, or
 * {"fault": {...}}; without, a sheet for people. Everything else goes to standard error.
 */
export async function runProgram(commands: readonly CliCommand[], args: readonly string[], world: ProgramWorld): Promise<ExitStatus> {
  const asJson = args.includes('--json');
  let status: ExitStatus = 0;
  const program = buildProgram(commands, world, async (command, argument, options) => {
    status = answer(await command.run(argument, options, world), asJson, world);
  });
  try {
    await program.parseAsync([...args], { from: 'user' });
    return status;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? 0 : answer(refused([misread(error)]), asJson, world);
    return fail(error, asJson, world);
  }
}

type Act = (command: CliCommand, argument: string, options: GivenOptions) => Promise<void>;

function buildProgram(commands: readonly CliCommand[], world: ProgramWorld, act: Act): Command {
  const program = new Command('watermeadow')
    .description('Morning plans for greenhouses of movable water basins. The plan advises; people decide and act.')
    .helpCommand('help [command]', 'Show what a command does and takes.')
    .helpOption('-h, --help', 'Show this help.');
  for (const command of commands) {
    const sub = program.command(command.name).summary(command.summary).description(command.summary).argument(`<${command.argument}>`);
    for (const option of command.options) sub.option(option.flags, option.summary);
    sub.option('--json', 'Print one JSON value and nothing else.');
    sub.action((argument: string, options: GivenOptions) => act(command, argument, options));
  }
  for (const each of [program, ...program.commands]) {
    each.exitOverride().showSuggestionAfterError(true).configureOutput({ writeOut: world.writeOut, writeErr: () => undefined });
  }
  program.action(() => { program.outputHelp(); });
  program.allowExcessArguments(true);
  return refuseUnknown(program);
}

/** A word that is no command is a mistake, not an argument. */
function refuseUnknown(program: Command): Command {
  return program.hook('preAction', (_, acting) => {
    if (acting === program && program.args.length > 0) program.error(`unknown command '${program.args[0]}'`, { code: 'commander.unknownCommand', exitCode: 1 });
  });
}

const misread = (error: CommanderError): Refusal => ({
  code: 'usage', severity: 'error', path: 'command line', message: sentence(error.message.replace(/^error: /, '').replaceAll('\n', ' ')),
});

const sentence = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}${/[.?)]$/.test(text) ? '' : '.'}`;

function answer(outcome: Outcome<CommandAnswer>, asJson: boolean, world: ProgramWorld): ExitStatus {
  if (!outcome.ok) {
    if (asJson) world.writeOut(`${JSON.stringify({ refusals: outcome.refusals })}\n`);
    else world.writeErr(refusalSheet(outcome.refusals));
    return 1;
  }
  world.writeOut(asJson ? `${JSON.stringify(outcome.value.json)}\n` : withNewline(outcome.value.sheet));
  if (!asJson && outcome.warnings.length > 0) world.writeErr(refusalSheet(outcome.warnings));
  return 0;
}

const withNewline = (text: string): string => (text === '' || text.endsWith('\n') ? text : `${text}\n`);

function fail(error: unknown, asJson: boolean, world: ProgramWorld): ExitStatus {
  const fault = faultAnswer(error);
  if (asJson) world.writeOut(`${JSON.stringify({ fault })}\n`);
  world.writeErr(`watermeadow: ${fault.message}${fault.retryHelps ? ' Trying again may help.' : ''}\n`);
  return 2;
}
