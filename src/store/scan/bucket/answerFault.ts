import type { BucketSettings } from '../../../greenhouse/schema/greenhouseFile.ts';
import type { RefusalCode } from '../../../science/refusalCodes.ts';
import { PlaceFault } from '../placeFault.ts';
import { KEY_NAMES } from './bucketKeys.ts';
import { elementOf } from './objectListing.ts';

const PATH = 'greenhouse.yaml imaging.bucket';
const fault = (code: RefusalCode, value: unknown, message: string, retryHelps: boolean, cause?: unknown) => new PlaceFault({ code, path: PATH, value, message, severity: 'error' }, retryHelps, cause);

/** Keys are not in the environment. */
export const keysMissing = ({ name }: BucketSettings): PlaceFault =>
  fault('storage-keys-missing', name, `The bucket ${name} is named in greenhouse.yaml, but the environment of this program does not hold ${KEY_NAMES[0]} and ${KEY_NAMES[1]}.`, false);

/** Nobody answers, or not in time. */
export function unreachable({ endpoint, name }: BucketSettings, cause: unknown): PlaceFault {
  const late = cause instanceof Error && (cause.name === 'TimeoutError' || cause.name === 'AbortError');
  return fault('storage-unreachable', endpoint, `${endpoint} ${late ? 'does not answer in time' : 'cannot be reached'}; clouds in the bucket ${name} wait there. Check network, address and whether the storage runs.`, true, cause);
}

/** What was got is not what the listing promised. */
export const wrongBytes = ({ name }: BucketSettings, key: string, what: string): PlaceFault =>
  fault('storage-answer-wrong', key, `${key} came from the bucket ${name} with ${what}; it is fetched again.`, true);

/** The storage answered with an error. Its own text may hold keys and signatures and is not repeated, only its code. */
export function answerFault({ name, endpoint, region }: BucketSettings, status: number, body: string): PlaceFault {
  const code = elementOf(body, 'Code') ?? `HTTP ${status}`;
  if (code === 'NoSuchBucket' || (status === 404 && code !== 'NoSuchKey')) return fault('storage-bucket-missing', name, `${endpoint} has no bucket ${name}: correct its name in greenhouse.yaml, or make it.`, false);
  if (code === 'RequestTimeTooSkewed') return fault('storage-forbidden', code, `${endpoint} refuses because the clock of this machine is wrong by minutes; set it.`, false);
  if (code === 'PermanentRedirect' || code === 'AuthorizationHeaderMalformed' || status === 301) {
    const there = elementOf(body, 'Region');
    return fault('storage-forbidden', region, `${endpoint} says that the bucket ${name} is not in region ${region}${there === undefined ? '' : ` but in ${there}`}; correct imaging.bucket in greenhouse.yaml.`, false);
  }
  if (code === 'InvalidAccessKeyId' || code === 'SignatureDoesNotMatch' || code === 'ExpiredToken' || code === 'InvalidToken') return fault('storage-forbidden', code, `${endpoint} does not know the keys of this program (${code}); correct ${KEY_NAMES[0]} and ${KEY_NAMES[1]} in its environment.`, false);
  if (status === 401 || status === 403) return fault('storage-forbidden', code, `${endpoint} does not let this program read the bucket ${name} (${code}): its keys need leave to list the bucket and to read its objects.`, false);
  return fault('storage-answer-wrong', code, `${endpoint} answers for the bucket ${name} with an error (${code}, HTTP ${status}).`, MAY_PASS.has(status));
}

/** Statuses after which the same request may succeed. */
const MAY_PASS: ReadonlySet<number> = new Set([408, 425, 429, 500, 502, 503, 504]);
