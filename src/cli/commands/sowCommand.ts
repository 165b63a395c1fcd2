import { planSowing } from '../../planning/sowing/planSowing.ts';
import { loadLinearSolver } from '../../planning/solver/loadLinearSolver.ts';
import { accepted, type Outcome } from '../../science/refusal.ts';
import type { GreenhouseSession } from '../../store/session/openSession.ts';
import type { CliCommand, CommandAnswer, GivenOptions, ProgramWorld } from '../cliCommand.ts';
import { instantOf, shiftStart } from '../planInstant.ts';
import { refuseOption } from '../refuseOption.ts';
import { sowingSheet } from '../sheets/sowingSheet.ts';
import { withSession } from '../withSession.ts';

const MOST_WEEKS = 60;

export const sowCommand: CliCommand = {
  name: 'sow', argument: 'DIR',
  options: [
    { flags: '--weeks <count>', summary: `Weeks of sowing to plan, 1 to ${MOST_WEEKS} (where absent: 12).` },
    { flags: '--at <time>', summary: 'The instant to plan for, ISO 8601 with Z or an offset (where absent: the start of the next shift).' },
  ],
  summary: 'Bring in what is new in the folder and print what to sow in the weeks ahead, for which orders, and what binds.',
  run: (folder, options, world) => withSession(folder, 'sow', world, (session) => planWeeks(session, options, world)),
};

async function planWeeks(session: GreenhouseSession, options: GivenOptions, world: ProgramWorld): Promise<Outcome<CommandAnswer>> {
  const at = options.at === undefined ? shiftStart(session, world.nowAt()) : instantOf(String(options.at));
  if (at === undefined) return refuseOption('--at', String(options.at), 'an instant such as 2026-03-02T06:00:00Z');
  const weeks = options.weeks === undefined ? undefined : Number(options.weeks);
  if (weeks !== undefined && !(Number.isInteger(weeks) && weeks >= 1 && weeks <= MOST_WEEKS)) return refuseOption('--weeks', String(options.weeks), `a whole number of weeks, 1 to ${MOST_WEEKS}`);
  const readings = await session.readingsBefore(at);
  const plan = planSowing({ state: session.state(), readings, at }, await loadLinearSolver(), weeks === undefined ? {} : { weeks });
  if (!plan.ok) return plan;
  return accepted({ json: plan.value, sheet: sowingSheet(plan.value) }, [...session.warnings, ...plan.warnings]);
}
