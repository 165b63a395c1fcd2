import type { Refusal } from '../../science/refusal.ts';
import type { Holder } from './greenhouseHold.ts';

/** The refusal for the second program on one greenhouse: it names the first. */
export function refuseInUse(what: string, holder: Holder | undefined): Refusal {
  return {
    code: 'folder-in-use', path: what, value: holder, severity: 'error',
    message: `${what} is open already ${holder === undefined ? 'in another program' : `in ${describeHolder(holder)}`}. Use that one, or stop it first.`,
  };
}

const describeHolder = ({ program, pid, host, address }: Holder): string =>
  `${program} (process ${pid}${host === undefined ? '' : ` on ${host}`})${address === undefined ? '' : ` at ${address}`}`;
