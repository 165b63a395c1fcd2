import type { FaultAnswer, Refusal, RefusedAnswer } from '../../desk/contract.ts';

/** The desk says that this cannot be, and why. */
export class Refused extends Error {
  readonly refusals: readonly Refusal[];
  constructor(refusals: readonly Refusal[]) {
    super(refusals.map((is) => is.message).join(' '));
    this.refusals = refusals;
  }
}

/** The desk or the way to it failed. */
export class Failed extends Error {
  readonly retryHelps: boolean;
  constructor(message: string, retryHelps: boolean) {
    super(message);
    this.retryHelps = retryHelps;
  }
}

export const askDesk = <Answer>(path: string): Promise<Answer> => call<Answer>(path, {});

export const tellDesk = <Answer>(path: string, body: unknown): Promise<Answer> =>
  call<Answer>(path, { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) });

/** An answer that is no JSON: pictures and points. */
export async function askBytes(path: string): Promise<ArrayBuffer> {
  const response = await reach(path, {});
  return response.ok ? await response.arrayBuffer() : tellTrouble(response, await response.json().catch(() => undefined));
}

async function call<Answer>(path: string, init: RequestInit): Promise<Answer> {
  const response = await reach(path, init);
  const answer: unknown = await response.json().catch(() => undefined);
  return response.ok ? answer as Answer : tellTrouble(response, answer);
}

const reach = (path: string, init: RequestInit): Promise<Response> =>
  fetch(path, init).catch(() => { throw new Failed('The desk does not answer. Is the program still running, and is this device on its network?', true); });

function tellTrouble(response: Response, answer: unknown): never {
  const refusals = (answer as Partial<RefusedAnswer> | undefined)?.refusals;
  if (refusals !== undefined) throw new Refused(refusals);
  const fault = answer as Partial<FaultAnswer> | undefined;
  throw new Failed(fault?.message ?? `The desk answered with status ${response.status}.`, fault?.retryHelps ?? false);
}
