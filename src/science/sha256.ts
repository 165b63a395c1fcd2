/** FIPS 180-4, section 4.2.2: the first 32 bits of the fractional parts of the cube roots of the first 64 primes. */
const K = Uint32Array.from(firstPrimes(64), (prime) => fractionBits(Math.cbrt(prime)));
/** FIPS 180-4, section 5.3.3: the same of the square roots of the first eight primes. */
const START = Uint32Array.from(firstPrimes(8), (prime) => fractionBits(Math.sqrt(prime)));

/**
 * SHA-256 of a text in UTF-8, in hex (FIPS 180-4). For identities and names of plans inside the pure floors, which have no
 * access to the platform's own; a megabyte takes about 20 ms.
 */
export function sha256(text: string): string {
  const message = padded(new TextEncoder().encode(text));
  const hash = Uint32Array.from(START);
  const words = new Uint32Array(64);
  for (let at = 0; at < message.byteLength; at += 64) {
    for (let i = 0; i < 16; i += 1) words[i] = message.getUint32(at + 4 * i);
    stretch(words);
    compress(hash, words);
  }
  return Array.from(hash, (word) => word.toString(16).padStart(8, '0')).join('');
}

/** Section 5.1.1: a one bit, zeros, and the length in bits, to whole blocks of 64 bytes. */
function padded(bytes: Uint8Array): DataView {
  const length = Math.ceil((bytes.length + 9) / 64) * 64;
  const block = new Uint8Array(length);
  block.set(bytes);
  block[bytes.length] = 0x80;
  const view = new DataView(block.buffer);
  view.setUint32(length - 8, Math.floor((bytes.length * 8) / 2 ** 32));
  view.setUint32(length - 4, (bytes.length * 8) >>> 0);
  return view;
}

const turn = (word: number, bits: number): number => (word >>> bits) | (word << (32 - bits));

/** Section 6.2.2, step 1. */
function stretch(w: Uint32Array): void {
  for (let t = 16; t < 64; t += 1) {
    const [a, b] = [w[t - 15]!, w[t - 2]!];
    const s0 = turn(a, 7) ^ turn(a, 18) ^ (a >>> 3);
    const s1 = turn(b, 17) ^ turn(b, 19) ^ (b >>> 10);
    w[t] = w[t - 16]! + s0 + w[t - 7]! + s1;
  }
}

/** Section 6.2.2, steps 2 to 4. */
function compress(hash: Uint32Array, w: Uint32Array): void {
  let [a, b, c, d, e, f, g, h] = hash as unknown as [number, number, number, number, number, number, number, number];
  for (let t = 0; t < 64; t += 1) {
    const s1 = turn(e, 6) ^ turn(e, 11) ^ turn(e, 25);
    const t1 = (h + s1 + ((e & f) ^ (~e & g)) + K[t]! + w[t]!) | 0;
    const s0 = turn(a, 2) ^ turn(a, 13) ^ turn(a, 22);
    const t2 = (s0 + ((a & b) ^ (a & c) ^ (b & c))) | 0;
    h = g; g = f; f = e; e = (d + t1) | 0; d = c; c = b; b = a; a = (t1 + t2) | 0;
  }
  [a, b, c, d, e, f, g, h].forEach((word, i) => { hash[i] = hash[i]! + word; });
}

function firstPrimes(count: number): number[] {
  const primes: number[] = [];
  for (let n = 2; primes.length < count; n += 1) if (primes.every((prime) => n % prime !== 0)) primes.push(n);
  return primes;
}

/** First 32 bits of the fraction. Doubles hold 45 or more of them for these roots. */
function fractionBits(root: number): number {
  return Math.floor((root - Math.floor(root)) * 2 ** 32);
}
