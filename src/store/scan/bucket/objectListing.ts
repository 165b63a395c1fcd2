/** One page of a bucket's listing (ListObjectsV2). */
export interface ObjectListing { readonly objects: readonly ListedObject[]; readonly next?: string }

export interface ListedObject {
  readonly key: string;
  readonly bytes: number;
  readonly modifiedMs: number;
  /** Entity tag without its quotes. */
  readonly tag: string;
}

const ENTITIES: Readonly<Record<string, string>> = { lt: '<', gt: '>', amp: '&', quot: '"', apos: "'" };

/** The page in an answer; undefined where the text is no such answer. Keys come in percent code where the answer says so. */
export function readListing(xml: string): ObjectListing | undefined {
  if (!/<ListBucketResult[\s>]/.test(xml)) return undefined;
  const coded = elementOf(xml, 'EncodingType') === 'url';
  const objects = [...xml.matchAll(/<Contents>([\s\S]*?)<\/Contents>/g)].map(([, content]) => objectOf(content!, coded));
  if (objects.some((object) => object === undefined)) return undefined;
  const next = elementOf(xml, 'IsTruncated') === 'true' ? elementOf(xml, 'NextContinuationToken') : undefined;
  return { objects: objects as ListedObject[], ...(next === undefined ? {} : { next }) };
}

/** Text of the first element of a name; undefined where there is none. */
export function elementOf(xml: string, name: string): string | undefined {
  return new RegExp(`<${name}>([^<]*)</${name}>`).exec(xml)?.[1]?.replace(/&(?:#(\d+)|#x([\da-fA-F]+)|(\w+));/g, (whole, decimal?: string, hex?: string, word?: string) =>
    (word === undefined ? String.fromCodePoint(decimal === undefined ? Number.parseInt(hex!, 16) : Number(decimal)) : ENTITIES[word] ?? whole));
}

function objectOf(content: string, coded: boolean): ListedObject | undefined {
  const key = elementOf(content, 'Key'), bytes = Number(elementOf(content, 'Size') ?? NaN), modifiedMs = Date.parse(elementOf(content, 'LastModified') ?? '');
  if (key === undefined || !Number.isSafeInteger(bytes) || bytes < 0 || !Number.isFinite(modifiedMs)) return undefined;
  return { key: coded ? decoded(key) : key, bytes, modifiedMs, tag: (elementOf(content, 'ETag') ?? '').replaceAll('"', '') };
}

function decoded(key: string): string {
  try { return decodeURIComponent(key.replaceAll('+', ' ')); } catch { return key; }
}
