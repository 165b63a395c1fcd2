import { setTimeout as wait } from 'node:timers/promises';
import { AwsV4Signer } from 'aws4fetch';
import type { BucketSettings } from '../../../greenhouse/schema/greenhouseFile.ts';
import { PlaceFault } from '../placeFault.ts';
import { answerFault, unreachable } from './answerFault.ts';
import type { BucketKeys } from './bucketKeys.ts';

/** How often, and with what pauses, a request is repeated. */
export interface Patience { readonly tries: number; readonly firstPauseMs: number; readonly silenceMs: number }
export const PATIENCE: Patience = { tries: 4, firstPauseMs: 400, silenceMs: 20_000 };

/** A bucket with what lets this program read it. */
export interface OpenBucket { readonly settings: BucketSettings; readonly keys: BucketKeys; readonly patience: Patience; readonly ended: AbortSignal }

/** SHA-256 of nothing: the body of a request that only reads. */
const NO_BODY = 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855';

/**
 * Asks for an address and reads the answer; repeated with growing pauses where that may help. Throws a PlaceFault; `absent` where the
 * storage says that there is no such object. Requests are signed (AWS signature version 4, aws4fetch); redirects are not followed, so that
 * signed headers go nowhere else.
 */
export async function askBucket<T>(bucket: OpenBucket, address: string, read: (answer: Response, stillThere: () => void) => Promise<T>, headers: Readonly<Record<string, string>> = {}): Promise<T | 'absent'> {
  const { tries, firstPauseMs } = bucket.patience;
  for (let attempt = 1; ; attempt += 1) {
    try {
      return await askOnce(bucket, address, read, headers);
    } catch (error) {
      const fault = error instanceof PlaceFault ? error : unreachable(bucket.settings, error);
      if (!fault.retryHelps || attempt >= tries || bucket.ended.aborted) throw fault;
      // Half of the pause is drawn, so that several readers do not come back at the same moment.
      await wait(firstPauseMs * 2 ** (attempt - 1) * (0.5 + 0.5 * Math.random()), undefined, { signal: bucket.ended }).catch(() => undefined);
    }
  }
}

async function askOnce<T>({ settings, keys, patience, ended }: OpenBucket, address: string, read: (answer: Response, stillThere: () => void) => Promise<T>, headers: Readonly<Record<string, string>>): Promise<T | 'absent'> {
  const signed = await new AwsV4Signer({ url: address, method: 'GET', headers: { 'x-amz-content-sha256': NO_BODY, ...headers }, ...keys, service: 's3', region: settings.region }).sign();
  const silence = new AbortController(), timer = setTimeout(() => silence.abort(new DOMException('silent', 'TimeoutError')), patience.silenceMs);
  try {
    // Not signed: what lies between may change it. Bytes are wanted as they are stored.
    signed.headers.set('accept-encoding', 'identity');
    const answer = await fetch(signed.url, { headers: signed.headers, redirect: 'manual', signal: AbortSignal.any([silence.signal, ended]) });
    timer.refresh();
    if (answer.ok) return await read(answer, () => timer.refresh());
    const body = (await answer.text()).slice(0, 10_000);
    if (answer.status === 404 && body.includes('<Code>NoSuchKey</Code>')) return 'absent';
    throw answerFault(settings, answer.status, body);
  } finally {
    clearTimeout(timer);
  }
}
