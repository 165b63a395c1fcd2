import { createHash } from 'node:crypto';
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { BucketKeys } from '../../../src/store/scan/bucket/bucketKeys.ts';
import { signatureOf, statedSignature } from './signature.ts';

/** What the server does instead of answering a request as it should. */
export type Mishap = 'busy' | 'silent' | 'cut' | 'other bytes';

export interface BucketServer {
  readonly endpoint: string;
  readonly objects: Map<string, Uint8Array>;
  /** Requests that were let in, as METHOD and key or query. */
  readonly asked: string[];
  /** What happens to the next requests, one after another. */
  readonly mishaps: Mishap[];
  readonly close: () => Promise<void>;
}

const CHANGED = new Date('2026-11-24T00:00:00Z');
const PAGE = 2;
const SKEW_MS = 15 * 60_000;

/**
 * A server of the S3 protocol for tests, with one bucket addressed by path: checks each signature (version 4) from first principles, lists
 * in pages of two (ListObjectsV2), gives objects with their MD5 as entity tag, answers errors as the reference says.
 */
export async function startBucketServer(bucket: string, keys: BucketKeys): Promise<BucketServer> {
  const objects = new Map<string, Uint8Array>(), asked: string[] = [], mishaps: Mishap[] = [];
  const server = createServer((request, response) => {
    const refusal = refuseSignature(request, keys), url = new URL(request.url ?? '/', 'http://server'), [name, ...rest] = url.pathname.slice(1).split('/');
    if (refusal !== undefined) return fail(response, 403, refusal);
    asked.push(`${request.method} ${rest.length === 0 ? url.search : rest.map(decodeURIComponent).join('/')}`);
    const mishap = mishaps.shift();
    if (mishap === 'busy') return fail(response, 503, 'SlowDown');
    if (mishap === 'silent') return undefined;
    if (decodeURIComponent(name ?? '') !== bucket) return fail(response, 404, 'NoSuchBucket');
    return rest.length === 0 ? list(response, url.searchParams, objects) : give(response, objects.get(rest.map(decodeURIComponent).join('/')), mishap);
  });
  await new Promise<void>((resolve) => { server.listen(0, '127.0.0.1', resolve); });
  return {
    endpoint: `http://127.0.0.1:${(server.address() as AddressInfo).port}`, objects, asked, mishaps,
    close: () => new Promise((resolve) => { server.close(() => resolve()); server.closeAllConnections(); }),
  };
}

function refuseSignature({ method = '', url = '', headers }: IncomingMessage, keys: BucketKeys): string | undefined {
  const seen = headers as Record<string, string>, stated = statedSignature(seen.authorization);
  if (stated === undefined) return 'AccessDenied';
  if (stated.accessKeyId !== keys.accessKeyId) return 'InvalidAccessKeyId';
  if (!['host', 'x-amz-date', 'x-amz-content-sha256'].every((name) => stated.signedHeaders.includes(name))) return 'AccessDenied';
  if (signatureOf({ method, address: url, headers: seen }, stated, keys.secretAccessKey) !== stated.signature) return 'SignatureDoesNotMatch';
  const [, year, month, day, hour, minute, second] = /^(\d{4})(\d\d)(\d\d)T(\d\d)(\d\d)(\d\d)Z$/.exec(seen['x-amz-date'] ?? '') ?? [];
  return Math.abs(Date.parse(`${year}-${month}-${day}T${hour}:${minute}:${second}Z`) - Date.now()) < SKEW_MS ? undefined : 'RequestTimeTooSkewed';
}

function list(response: ServerResponse, query: URLSearchParams, objects: ReadonlyMap<string, Uint8Array>): void {
  if (query.get('list-type') !== '2' || query.get('encoding-type') !== 'url') return fail(response, 400, 'InvalidArgument');
  const after = Buffer.from(query.get('continuation-token') ?? '', 'base64url').toString('utf8');
  const keys = [...objects.keys()].sort().filter((key) => key.startsWith(query.get('prefix') ?? '') && key > after), page = keys.slice(0, PAGE);
  const next = keys.length > PAGE ? `<NextContinuationToken>${Buffer.from(page.at(-1)!).toString('base64url')}</NextContinuationToken>` : '';
  const contents = page.map((key) => `<Contents><Key>${encodeURIComponent(key)}</Key><LastModified>${CHANGED.toISOString()}</LastModified><ETag>&quot;${tagOf(objects.get(key)!)}&quot;</ETag><Size>${objects.get(key)!.length}</Size></Contents>`);
  response.setHeader('content-type', 'application/xml');
  response.end(`<?xml version="1.0" encoding="UTF-8"?><ListBucketResult><IsTruncated>${next !== ''}</IsTruncated><EncodingType>url</EncodingType>${contents.join('')}${next}</ListBucketResult>`);
}

const tagOf = (bytes: Uint8Array): string => createHash('md5').update(bytes).digest('hex');

function give(response: ServerResponse, bytes: Uint8Array | undefined, mishap: Mishap | undefined): void {
  if (bytes === undefined) return fail(response, 404, 'NoSuchKey');
  response.writeHead(200, { 'content-length': bytes.length, etag: `"${tagOf(bytes)}"` });
  if (mishap === 'cut') { response.write(bytes.subarray(0, bytes.length / 2), () => response.destroy()); return; }
  response.end(mishap === 'other bytes' ? new Uint8Array(bytes.length) : bytes);
}

function fail(response: ServerResponse, status: number, code: string): void {
  response.writeHead(status, { 'content-type': 'application/xml' });
  response.end(`<?xml version="1.0" encoding="UTF-8"?><Error><Code>${code}</Code><Message>An error.</Message><AWSAccessKeyId>not to be repeated</AWSAccessKeyId></Error>`);
}
