import { createHash } from 'node:crypto';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sha256 } from './sha256.ts';

describe('sha256', () => {
  it('gives the digests of the published examples (NIST, SHA-256 examples; FIPS 180-4)', () => {
    expect(sha256('abc')).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
    expect(sha256('abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq')).toBe('248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1');
    expect(sha256('')).toBe('e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855');
  });

  it('agrees with the platform for any text and length', () => {
    fc.assert(fc.property(fc.string({ unit: fc.constantFrom('a', 'Z', ' ', 'é', '水', '🌱', '\0'), maxLength: 200 }), (text) => {
      expect(sha256(text)).toBe(createHash('sha256').update(text, 'utf8').digest('hex'));
    }), { numRuns: 60 });
  });
});
