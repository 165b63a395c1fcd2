import type { Outcome } from '../science/refusal.ts';
import { openSession, type GreenhouseSession } from '../store/session/openSession.ts';
import type { CommandAnswer, ProgramWorld } from './cliCommand.ts';

/** Opens a greenhouse folder, does something with it, and closes it again, whatever happens. */
export async function withSession(folder: string, program: string, world: ProgramWorld, act: (session: GreenhouseSession) => Promise<Outcome<CommandAnswer>>): Promise<Outcome<CommandAnswer>> {
  const session = await openSession({ folder, program, nowAt: world.nowAt(), ...(world.serverUrl === undefined ? {} : { serverUrl: world.serverUrl }) });
  if (!session.ok) return session;
  try {
    return await act(session.value);
  } finally {
    await session.value.close();
  }
}
