import { planMorning } from '../../planning/planMorning.ts';
import { loadLinearSolver } from '../../planning/solver/loadLinearSolver.ts';
import { accepted, type Outcome } from '../../science/refusal.ts';
import type { GreenhouseSession } from '../../store/session/openSession.ts';
import type { CliCommand, CommandAnswer, GivenOptions, ProgramWorld } from '../cliCommand.ts';
import { instantOf, shiftStart } from '../planInstant.ts';
import { refuseOption } from '../refuseOption.ts';
import { planSheet } from '../sheets/planSheet.ts';
import { withSession } from '../withSession.ts';

export const planCommand: CliCommand = {
  name: 'plan', argument: 'DIR',
  options: [{ flags: '--at <time>', summary: 'The instant to plan for, ISO 8601 with Z or an offset (where absent: the start of today\'s shift, or of tomorrow\'s once today\'s is over).' }],
  summary: 'Bring in what is new in the folder and print the plan of the shift.',
  run: (folder, options, world) => withSession(folder, 'plan', world, (session) => planShift(session, options, world)),
};

async function planShift(session: GreenhouseSession, options: GivenOptions, world: ProgramWorld): Promise<Outcome<CommandAnswer>> {
  const at = options.at === undefined ? shiftStart(session, world.nowAt()) : instantOf(String(options.at));
  if (at === undefined) return refuseOption('--at', String(options.at), 'an instant such as 2026-03-02T06:00:00Z');
  const readings = await session.readingsBefore(at);
  const plan = planMorning({ state: session.state(), readings, at }, await loadLinearSolver());
  if (!plan.ok) return plan;
  return accepted({ json: plan.value, sheet: planSheet(plan.value) }, [...session.warnings, ...plan.warnings]);
}
