import { accepted } from '../../science/refusal.ts';
import type { CliCommand } from '../cliCommand.ts';
import { withSession } from '../withSession.ts';

export const exportCommand: CliCommand = {
  name: 'export', argument: 'DIR', options: [],
  summary: 'Print the journal as JSON lines, oldest entry first; with --json as one list.',
  run: (folder, _, world) => withSession(folder, 'export', world, async (session) => {
    const events = session.events(undefined, session.state().sequence);
    return accepted({ json: events, sheet: events.map((event) => JSON.stringify(event)).join('\n') });
  }),
};
