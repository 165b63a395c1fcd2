import { useQuery } from '@tanstack/react-query';
import type { PersonView } from '../../desk/contract.ts';
import { peopleQuestion } from '../ask/questions.ts';
import { useWho } from './useWho.ts';

const ROLE_WORDS: Readonly<Record<PersonView['role'], string>> = { grower: 'head grower', lead: 'shift lead', operator: 'operator', inspector: 'inspector', manager: 'manager' };

/** Says who acts on this device; what is recorded carries this name. */
export function WhoAmI() {
  const { data } = useQuery(peopleQuestion);
  const [who, choose] = useWho();
  const known = data?.people.some((person) => person.id === who) ? who : '';
  return (
    <div className="who">
      <label htmlFor="who">I am</label>
      <select id="who" value={known} onChange={(event) => choose(event.target.value)}>
        <option value="" disabled>choose your name</option>
        {data?.people.map((person) => <option key={person.id} value={person.id}>{person.name}, {ROLE_WORDS[person.role]}</option>)}
      </select>
    </div>
  );
}

/** The person chosen on this device, once the desk has said who works here. */
export function usePerson(): PersonView | undefined {
  const { data } = useQuery(peopleQuestion);
  const [who] = useWho();
  return data?.people.find((person) => person.id === who);
}

/** Names for ids of people, as far as the desk has said who works here. */
export function useNameOf(): (id: string) => string {
  const { data } = useQuery(peopleQuestion);
  return (id) => data?.people.find((person) => person.id === id)?.name ?? id;
}
