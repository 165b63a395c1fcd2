import type { z } from 'zod';
import type { Refusal } from '../../science/refusal.ts';
import type { RefusalCode } from '../../science/refusalCodes.ts';
import type { FaultAnswer } from '../contract.ts';

/** Somebody asked the desk for something that cannot be. Becomes HTTP 422 with the whole list. */
export class RefusedRequest extends Error {
  readonly refusals: readonly Refusal[];
  constructor(refusals: readonly Refusal[]) {
    super(refusals.map((is) => is.message).join(' '));
    this.refusals = refusals;
  }
}

/** The world failed, not the request. Becomes HTTP 503. */
export class FailedWorld extends Error {
  readonly answer: FaultAnswer;
  constructor(answer: FaultAnswer, cause?: unknown) {
    super(answer.message, { cause });
    this.answer = answer;
  }
}

export const refuse = (code: RefusalCode, path: string, message: string, value?: unknown): RefusedRequest =>
  new RefusedRequest([{ code, path, message, severity: 'error', ...(value === undefined ? {} : { value }) }]);

/** Checks a body, a query or parameters; throws RefusedRequest with every reason at once. */
export function parseOrRefuse<S extends z.ZodType>(schema: S, input: unknown, where: string): z.output<S> {
  const parsed = schema.safeParse(input, { reportInput: true });
  if (parsed.success) return parsed.data;
  throw new RefusedRequest(parsed.error.issues.map((issue) => refusalOf(issue, where)));
}

function refusalOf(issue: z.core.$ZodIssue, where: string): Refusal {
  const path = [where, ...issue.path.map(String)].join('.');
  return { code: codeOf(issue), path, message: `${path} ${wordsOf(issue)}.`, severity: 'error' };
}

function wordsOf(issue: z.core.$ZodIssue): string {
  if (issue.code === 'invalid_type' && issue.input === undefined) return 'is missing';
  if (issue.code === 'unrecognized_keys') return `holds what is not known here: ${issue.keys.join(', ')}`;
  return `cannot be taken: ${issue.message.replace(/^Invalid input: /, '')}`;
}

function codeOf(issue: z.core.$ZodIssue): RefusalCode {
  if (issue.code === 'unrecognized_keys') return 'key-unknown';
  if (issue.code === 'too_big' || issue.code === 'too_small') return 'value-out-of-range';
  if (issue.code === 'invalid_type') return issue.input === undefined ? 'value-missing' : 'value-not-allowed';
  return 'value-not-allowed';
}
