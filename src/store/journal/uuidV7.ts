import { randomBytes } from 'node:crypto';

/**
 * A UUID of version 7 (RFC 9562, section 5.7): 48 bits of Unix milliseconds, then 74 bits of chance.
 * `chance` holds 10 bytes; six bits of it give way to version and variant.
 */
export function formUuidV7(unixMs: number, chance: Uint8Array): string {
  const bytes = Buffer.alloc(16);
  bytes.writeUIntBE(unixMs, 0, 6);
  bytes.set(chance.subarray(0, 10), 6);
  bytes[6] = 0x70 | (bytes[6]! & 0x0f);
  bytes[8] = 0x80 | (bytes[8]! & 0x3f);
  const hex = bytes.toString('hex');
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join('-');
}

/** Makes ids that ascend within one program, also within a millisecond and when the clock steps back (RFC 9562, section 6.2, method 1: a counter of 12 bits). */
export function uuidV7Maker(nowMs: () => number = Date.now): () => string {
  let lastMs = 0;
  let counter = 0;
  return () => {
    const now = nowMs();
    if (now > lastMs) [lastMs, counter] = [now, 0];
    else if (counter === 0xfff) [lastMs, counter] = [lastMs + 1, 0];
    else counter += 1;
    const chance = randomBytes(10);
    chance.writeUInt16BE(counter, 0);
    return formUuidV7(lastMs, chance);
  };
}
