import { accepted, refused, type Outcome, type Refusal } from '../science/refusal.ts';
import type { GreenhouseEventDraft } from './events.ts';
import type { Role } from './schema/greenhouseFile.ts';
import type { SowingRow } from './schema/tableRows.ts';
import type { GreenhouseState } from './state.ts';

/** Seeds were sown, or what was sown comes to nothing. */
export type SowingCommand =
  | { readonly do: 'record-sowing'; readonly row: SowingRow; readonly by: string }
  | { readonly do: 'withdraw-sowing'; readonly lot: string; readonly reason: string; readonly by: string };

const SOWS: readonly Role[] = ['grower', 'lead', 'operator'];
const SHORTEST_REASON = 3;

/** The event that it means, or every reason why it cannot be. `nowAt`: UTC instant at which the person acted. */
export function decideSowing(state: GreenhouseState, command: SowingCommand, nowAt: string): Outcome<GreenhouseEventDraft[]> {
  const wrong = [...checkPerson(state, command.by), ...(command.do === 'record-sowing' ? checkRow(state, command.row, nowAt) : checkWithdrawal(state, command))];
  if (wrong.length > 0) return refused(wrong);
  if (command.do === 'record-sowing') return accepted([{ kind: 'lot-sown', happenedAt: nowAt, recordedBy: command.by, body: { row: command.row } }]);
  return accepted([{ kind: 'sowing-withdrawn', happenedAt: nowAt, recordedBy: command.by, body: { lot: command.lot, reason: command.reason } }]);
}

function checkPerson(state: GreenhouseState, by: string): Refusal[] {
  const person = state.file?.people.find(({ id }) => id === by);
  if (person === undefined) return [refusal('reference-unknown', 'by', by, `greenhouse.yaml names no person '${by}'.`)];
  return SOWS.includes(person.role) ? [] : [{ ...refusal('not-permitted', 'by', by, `${person.name} has the role ${person.role}; a grower, a shift lead or an operator records what was sown.`), limit: SOWS.join(', ') }];
}

function checkRow({ crops, basins, trays }: GreenhouseState, { lot, crop, sown, seeds, plants }: SowingRow, nowAt: string): Refusal[] {
  const wrong: Refusal[] = [];
  if (crops[crop] === undefined) wrong.push(refusal('reference-unknown', 'crop', crop, `No crop card describes ${crop}.`));
  if (trays[lot] !== undefined) wrong.push(refusal('state-conflict', 'lot', lot, `Lot ${lot} is in trays already, sown ${trays[lot].sown}; give this one another code.`));
  const basin = Object.values(basins).find(({ planting }) => planting?.lot === lot);
  if (basin !== undefined) wrong.push(refusal('state-conflict', 'lot', lot, `Lot ${lot} stands in basin ${basin.id} already; give this one another code.`));
  if (plants > seeds) wrong.push({ ...refusal('inconsistent', 'plants', plants, `${seeds} seeds cannot give ${plants} seedlings.`), limit: seeds });
  const lastDay = new Date(Date.parse(nowAt) + DAY_MS / 2).toISOString().slice(0, 10);
  if (sown > lastDay) wrong.push({ ...refusal('value-out-of-range', 'sown', sown, `${sown} is still to come: record it on the day.`), limit: lastDay });
  return wrong;
}

/** The day may have begun already where the greenhouse stands: UTC+12 at most counts. */
const DAY_MS = 86_400_000;

function checkWithdrawal({ trays }: GreenhouseState, { lot, reason }: Extract<SowingCommand, { do: 'withdraw-sowing' }>): Refusal[] {
  return [
    ...(trays[lot] === undefined ? [refusal('reference-unknown', 'lot', lot, `No lot ${lot} is in trays.`)] : []),
    ...(reason.trim().length < SHORTEST_REASON ? [refusal('value-missing', 'reason', reason, 'Say in a few words what became of it.')] : []),
  ];
}

const refusal = (code: Refusal['code'], path: string, value: unknown, message: string): Refusal => ({ code, severity: 'error', path, value, message });
