import type { BucketSettings } from '../../../greenhouse/schema/greenhouseFile.ts';

/** RFC 3986, as signatures want it: everything but letters, digits and - . _ ~ */
const encoded = (text: string): string => encodeURIComponent(text).replace(/[!'()*]/g, (letter) => `%${letter.charCodeAt(0).toString(16).toUpperCase()}`);

/** Address of an object, or of the bucket itself where `key` is empty: behind the bucket's name in the path, or with it before the host. */
export function objectAddress({ endpoint, name, addressing }: BucketSettings, key: string, query: Readonly<Record<string, string>> = {}): string {
  const { protocol, host, pathname } = new URL(endpoint), base = pathname.replace(/\/+$/, '');
  const path = key.split('/').map(encoded).join('/'), asked = Object.entries(query).map(([word, value]) => `${encoded(word)}=${encoded(value)}`).sort().join('&');
  const root = addressing === 'host' ? `${protocol}//${name}.${host}${base}/` : `${protocol}//${host}${base}/${encoded(name)}${key === '' ? '' : '/'}`;
  return `${root}${path}${asked === '' ? '' : `?${asked}`}`;
}
