import type { FastifyInstance } from 'fastify';
import { mayApprove, mayMark } from '../../greenhouse/decide.ts';
import { mayScore } from '../../greenhouse/decideScan.ts';
import type { GreenhouseState } from '../../greenhouse/state.ts';
import type { PeopleAnswer, PersonView } from '../contract.ts';
import type { DeskParts } from '../deskParts.ts';
import { refuse } from '../http/answers.ts';

/** Who works here and what each may do. */
export function peopleRoutes(app: FastifyInstance, desk: DeskParts): void {
  app.get('/api/people', (): PeopleAnswer => ({ people: peopleOf(desk.greenhouse.state()) }));
}

function peopleOf(state: GreenhouseState): PersonView[] {
  return (state.file?.people ?? []).map((person) => ({
    ...person, mayApprove: mayApprove(person.role), mayMark: mayMark(person.role), mayScore: mayScore(person.role),
  }));
}

/** The person with this id, or a refusal: unknown, or the role does not include the action. */
export function demandPerson(state: GreenhouseState, id: string, right: 'mayApprove' | 'mayMark'): PersonView {
  const person = peopleOf(state).find((is) => is.id === id);
  if (person === undefined) throw refuse('reference-unknown', 'body.by', `Nobody with the id "${id}" is described in greenhouse.yaml.`, id);
  if (!person[right]) throw refuse('not-permitted', 'body.by', `${person.name} works here as ${person.role}; ${right === 'mayApprove' ? 'a grower or a shift lead approves plans' : 'a grower, a shift lead or an operator marks stops'}.`, id);
  return person;
}
