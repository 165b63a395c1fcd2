import { accepted, refused, type Outcome, type Refusal } from '../science/refusal.ts';
import { ACTION_IDS, type ActionDecided, type ActionOrder } from './actionEvents.ts';
import type { GreenhouseEventDraft } from './events.ts';
import type { Role } from './schema/greenhouseFile.ts';
import type { GreenhouseState } from './state.ts';

/** A person decides what is done with a lot that is off target. */
export interface ActionCommand { readonly do: 'decide-action'; readonly decided: ActionDecided }

const DECIDES: readonly Role[] = ['grower', 'lead'];
const SHORTEST_WHY = 3;
/** Limits of greenhouse.yaml for lamps: no decision goes beyond them. */
const MOST_DLI = 40;

/** The event that the decision means, or every reason why it cannot be. `nowAt`: UTC instant at which the person acted. */
export function decideAction(state: GreenhouseState, { decided }: ActionCommand, nowAt: string): Outcome<GreenhouseEventDraft[]> {
  const wrong = [...checkPerson(state, decided.by), ...checkLot(state, decided), ...checkOrder(state, decided.order)];
  if (!ACTION_IDS.includes(decided.action)) wrong.push({ code: 'value-not-allowed', severity: 'error', path: 'action', value: decided.action, limit: ACTION_IDS, message: `There is no action ${decided.action}.` });
  if (decided.why.trim().length < SHORTEST_WHY) wrong.push({ code: 'value-missing', severity: 'error', path: 'why', message: 'Say in a few words why: the decision is looked back on.' });
  return wrong.length > 0 ? refused(wrong) : accepted([{ kind: 'action-decided', happenedAt: nowAt, recordedBy: decided.by, body: decided }]);
}

function checkPerson(state: GreenhouseState, by: string): Refusal[] {
  const person = state.file?.people.find(({ id }) => id === by);
  if (person === undefined) return [{ code: 'reference-unknown', severity: 'error', path: 'by', value: by, message: `greenhouse.yaml names no person '${by}'.` }];
  return DECIDES.includes(person.role) ? [] : [{ code: 'not-permitted', severity: 'error', path: 'by', value: by, limit: DECIDES.join(', '), message: `${person.name} has the role ${person.role}; what is done with a lot is decided by a grower or a shift lead.` }];
}

function checkLot(state: GreenhouseState, { lot, crop }: ActionDecided): Refusal[] {
  const plantings = Object.values(state.basins).flatMap(({ planting }) => (planting?.lot === lot ? [planting] : []));
  if (plantings.length === 0) return [{ code: 'reference-unknown', severity: 'error', path: 'lot', value: lot, message: `No basin holds plants of lot ${lot} any more.` }];
  return plantings.some((planting) => planting.crop === crop) ? [] : [{ code: 'state-conflict', severity: 'error', path: 'crop', value: crop, message: `Lot ${lot} grows ${plantings[0]!.crop}, not ${crop}.` }];
}

function checkOrder({ file }: GreenhouseState, order: ActionOrder): Refusal[] {
  if (order.do !== 'light' && order.do !== 'move') return [];
  const bay = file?.bays.find(({ id }) => id === order.bay);
  if (bay === undefined) return [{ code: 'reference-unknown', severity: 'error', path: 'order.bay', value: order.bay, message: `greenhouse.yaml describes no bay ${order.bay}.` }];
  if (order.do === 'move') return [];
  const wrong: Refusal[] = [];
  if (bay.lamps === undefined) wrong.push({ code: 'state-conflict', severity: 'error', path: 'order.bay', value: order.bay, message: `${bay.title} has no lamps.` });
  if (!(order.targetDliMolM2 >= 0 && order.targetDliMolM2 <= MOST_DLI)) wrong.push({ code: 'value-out-of-range', severity: 'error', path: 'order.targetDliMolM2', value: order.targetDliMolM2, limit: [0, MOST_DLI], unit: 'mol/(m2.d)', message: `Lamps fill up to at most ${MOST_DLI} mol/(m2 d).` });
  if (!(order.hoursPerDayMax >= 0 && order.hoursPerDayMax <= 24)) wrong.push({ code: 'value-out-of-range', severity: 'error', path: 'order.hoursPerDayMax', value: order.hoursPerDayMax, limit: [0, 24], unit: 'h', message: 'A day has 24 hours.' });
  return wrong;
}
