import { accepted, refused } from '../../science/refusal.ts';
import type { CliCommand } from '../cliCommand.ts';
import { withSession } from '../withSession.ts';

export const verifyCommand: CliCommand = {
  name: 'verify', argument: 'DIR', options: [],
  summary: 'Recompute the chain of the journal and say whether every entry still fits the one before.',
  run: (folder, _, world) => withSession(folder, 'verify', world, async (session) => {
    const { head, breaks } = await session.checkChain();
    if (breaks.length > 0) return refused(breaks.map((each) => ({ code: 'inconsistent', severity: 'error', path: `journal entry ${each.sequence}`, message: each.message })));
    return accepted({ json: { holds: true, entries: head.sequence, lastHash: head.hash }, sheet: `The chain holds: ${head.sequence} entries, the last one with hash ${head.hash}.` });
  }),
};
