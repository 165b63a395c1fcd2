import type { ClientBase } from 'pg';
import type { EventDraft, JournalEvent } from '../../greenhouse/journalEvent.ts';
import type { Outcome } from '../../science/refusal.ts';
import { accepted, refused } from '../../science/refusal.ts';
import { writeInstant } from '../instant.ts';
import { StoreFault } from '../storeFault.ts';
import { untilAnswered } from '../sql/untilAnswered.ts';
import type { WriteSession } from '../sql/writeSession.ts';
import type { Appended, ChainBreak, Journal, JournalHead } from '../store.ts';
import type { CheckedDraft } from './checkDraft.ts';
import { checkDraft } from './checkDraft.ts';
import type { Asked } from './eventTable.ts';
import { findIdentities, findIds, insertRows, readHead, readIdAt, readRows, toEvent } from './eventTable.ts';
import type { EventRow } from './hashEvent.ts';
import type { PlannedAppend } from './planAppend.ts';
import { planAppend } from './planAppend.ts';
import { uuidV7Maker } from './uuidV7.ts';
import { walkChain } from './verifyChain.ts';

/** How long a call waits for a database that is away; after a crash it is back in a few seconds. */
export const PATIENCE_MS = 15_000;
const ROWS_A_PAGE = 5_000;
/** Drafts that go to the disk together when several calls wait: one flush serves them all. */
const MOST_TOGETHER = 1_000;

interface WaitingCall {
  readonly drafts: readonly CheckedDraft[];
  readonly resolve: (outcome: Outcome<Appended>) => void;
  readonly reject: (error: unknown) => void;
}

/** The journal of one greenhouse in one database. `reading` answers questions, `session` writes. */
export function openJournal(greenhouse: number, session: WriteSession, reading: Asked): Journal {
  const nextId = uuidV7Maker();
  const waiting: WaitingCall[] = [];
  let writing = false;
  let remembered: { readonly connection: number; readonly head: JournalHead } | undefined;

  const writeTogether = async (calls: readonly WaitingCall[]): Promise<Outcome<PlannedAppend>[]> => {
    let sent: readonly EventRow[] = [];
    let plans: Outcome<PlannedAppend>[] = [];
    const attempt = (): Promise<Outcome<PlannedAppend>[]> => session.use(async (client, connection) => {
      if (await isWritten(client, greenhouse, sent)) return plans;
      const before = remembered?.connection === connection ? remembered.head : await readHead(client, greenhouse);
      remembered = undefined;
      plans = await planCalls(client, greenhouse, calls, before, nextId);
      sent = plans.flatMap((plan) => (plan.ok ? plan.value.rows : []));
      await insertRows(client, greenhouse, sent);
      remembered = { connection, head: sent.at(-1) ?? before };
      return plans;
    });
    return untilAnswered(attempt, PATIENCE_MS);
  };
  const writeEach = async (calls: readonly WaitingCall[]): Promise<void> => {
    for (const call of calls) await writeTogether([call]).then(([plan]) => call.resolve(toAppended(plan!)), call.reject);
  };
  const drain = async (): Promise<void> => {
    if (writing) return;
    writing = true;
    while (waiting.length > 0) {
      const calls = takeTogether(waiting);
      try {
        const plans = await writeTogether(calls);
        for (const [index, call] of calls.entries()) call.resolve(toAppended(plans[index]!));
      } catch (error) {
        // What one call brought must not fail the others; a fault of the world is everybody's.
        if (calls.length > 1 && !(error instanceof StoreFault)) await writeEach(calls);
        else for (const call of calls) call.reject(error);
      }
    }
    writing = false;
  };
  const append = <Draft extends EventDraft>(drafts: readonly Draft[]): Promise<Outcome<Appended<Draft>>> => {
    const checked = drafts.map(checkDraft);
    const refusals = checked.flatMap((check) => (check.ok ? [] : check.refusals));
    if (refusals.length > 0) return Promise.resolve(refused(refusals));
    return new Promise((resolve, reject) => {
      waiting.push({ drafts: checked.flatMap((check) => (check.ok ? [check.value] : [])), resolve: resolve as WaitingCall['resolve'], reject });
      void drain();
    });
  };
  return {
    append,
    read: async <Event extends JournalEvent>(wish = {}) => (await untilAnswered(() => readRows(reading, greenhouse, wish), PATIENCE_MS)).map(toEvent) as Event[],
    head: () => untilAnswered(() => readHead(reading, greenhouse), PATIENCE_MS),
    verifyChain: () => verifyStored(reading, greenhouse),
  };
}

/** As many calls as go together; always at least one. */
function takeTogether(waiting: WaitingCall[]): WaitingCall[] {
  let drafts = 0;
  const fit = waiting.findIndex((call) => (drafts += call.drafts.length) > MOST_TOGETHER);
  return waiting.splice(0, fit === -1 ? waiting.length : Math.max(fit, 1));
}

/** Whether rows that were sent over a connection that then broke had reached the disk after all. All of them or none. */
const isWritten = async (client: ClientBase, greenhouse: number, sent: readonly EventRow[]): Promise<boolean> =>
  sent.length > 0 && await readIdAt(client, greenhouse, sent[0]!.sequence) === sent[0]!.id;

async function planCalls(client: ClientBase, greenhouse: number, calls: readonly WaitingCall[], before: JournalHead, nextId: () => string): Promise<Outcome<PlannedAppend>[]> {
  const drafts = calls.flatMap((call) => call.drafts.map(({ draft }) => draft));
  const identities = await findIdentities(client, greenhouse, drafts.flatMap(({ identity }) => identity ?? []));
  const ids = await findIds(client, greenhouse, drafts.flatMap(({ corrects }) => corrects ?? []));
  const recordedAt = writeInstant(Date.now());
  let head = before;
  return calls.map((call) => {
    const plan = planAppend(call.drafts, head, { identities, ids }, { recordedAt, nextId });
    if (!plan.ok) return plan;
    for (const { identity, id } of plan.value.rows) if (identity !== undefined) identities.set(identity, id);
    head = plan.value.rows.at(-1) ?? head;
    return plan;
  });
}

const toAppended = (plan: Outcome<PlannedAppend>): Outcome<Appended> =>
  (plan.ok ? accepted({ events: plan.value.rows.map(toEvent), skipped: plan.value.skipped }) : plan);

async function verifyStored(reading: Asked, greenhouse: number): Promise<ChainBreak[]> {
  const walk = walkChain();
  const breaks: ChainBreak[] = [];
  const { sequence: upToSequence } = await untilAnswered(() => readHead(reading, greenhouse), PATIENCE_MS);
  for (;;) {
    const wish = { afterSequence: walk.head().sequence, upToSequence, limit: ROWS_A_PAGE };
    const rows = await untilAnswered(() => readRows(reading, greenhouse, wish), PATIENCE_MS);
    if (rows.length === 0) return breaks;
    breaks.push(...rows.flatMap(walk.breaksOf));
  }
}
