import { createHash, createHmac } from 'node:crypto';

/** A request as a server sees it: header names in small letters, the address as it was sent. */
export interface SeenRequest { readonly method: string; readonly address: string; readonly headers: Readonly<Record<string, string | undefined>> }

const sha256 = (text: string): string => createHash('sha256').update(text).digest('hex');
const hmac = (key: string | Buffer, text: string): Buffer => createHmac('sha256', key).update(text).digest();

export interface StatedSignature { readonly accessKeyId: string; readonly day: string; readonly region: string; readonly signedHeaders: readonly string[]; readonly signature: string }

/** What an Authorization header states; undefined where it is of another kind. */
export function statedSignature(header: string | undefined): StatedSignature | undefined {
  const found = /^AWS4-HMAC-SHA256 Credential=([^/]+)\/(\d{8})\/([^/]+)\/s3\/aws4_request, ?SignedHeaders=([^,]+), ?Signature=([0-9a-f]{64})$/.exec(header ?? '');
  return found === null ? undefined : { accessKeyId: found[1]!, day: found[2]!, region: found[3]!, signedHeaders: found[4]!.split(';'), signature: found[5]! };
}

/**
 * The signature that a request must carry, written for these tests from the description of AWS signature version 4 for S3 (Amazon S3 API
 * reference, "Authenticating Requests: Using the Authorization Header"), apart from the library that the program signs with.
 */
export function signatureOf({ method, address, headers }: SeenRequest, { day, region, signedHeaders }: Pick<StatedSignature, 'day' | 'region' | 'signedHeaders'>, secret: string): string {
  const [path = '', query = ''] = address.split('?');
  const canonical = [method, path, query.split('&').filter(Boolean).map((part) => (part.includes('=') ? part : `${part}=`)).sort().join('&'),
    ...signedHeaders.map((name) => `${name}:${(headers[name] ?? '').trim().replace(/ +/g, ' ')}`), '', signedHeaders.join(';'), headers['x-amz-content-sha256']].join('\n');
  const toSign = ['AWS4-HMAC-SHA256', headers['x-amz-date'], `${day}/${region}/s3/aws4_request`, sha256(canonical)].join('\n');
  const key = [region, 's3', 'aws4_request'].reduce((so, part) => hmac(so, part), hmac(`AWS4${secret}`, day));
  return hmac(key, toSign).toString('hex');
}
