import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { canonicalJson } from './canonicalJson.ts';
import { type EventRow, FIRST_PREVIOUS_HASH, hashEvent } from './hashEvent.ts';

const row: Omit<EventRow, 'hash'> = {
  kind: 'sample-taken', happenedAt: '2026-11-25T06:30:00Z', recordedBy: 'ana', bodyText: '{"freshG":41.5,"plant":"Ü"}', id: '017f22e2-79b0-7cc3-98c4-dc0c0c07398f',
  sequence: 7, recordedAt: '2026-11-25T06:31:00.000Z', previousHash: 'ab'.repeat(32),
};

describe('hash of an event', () => {
  it('uses the SHA-256 of FIPS 180-4', () => {
    console.log('hash against FIPS 180-4: the one-block message "abc" (NIST example values, SHA-256)');
    expect(createHash('sha256').update('abc').digest('hex')).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
  });

  it.each([[{}], [{ identity: 'samples.csv 4' }], [{ corrects: '017f22e2-79b0-7cc3-98c4-dc0c0c073990' }], [{ identity: '"\\', corrects: 'x' }]])('is that of the canonical JSON of all it says, with %j', (extra) => {
    const whole = { ...row, ...extra };
    const { bodyText, ...said } = whole;
    const canonical = canonicalJson({ ...said, body: JSON.parse(bodyText) as unknown });
    expect(hashEvent(whole)).toBe(createHash('sha256').update(canonical).digest('hex'));
  });

  it('changes with each thing that an event says', () => {
    const whole = { ...row, identity: 'a', corrects: 'b' };
    const changed: Omit<EventRow, 'hash'>[] = [
      { ...whole, kind: 'x' }, { ...whole, happenedAt: 'x' }, { ...whole, recordedBy: 'x' }, { ...whole, bodyText: '{}' }, { ...whole, identity: 'x' }, { ...whole, corrects: 'x' },
      { ...whole, id: 'x' }, { ...whole, sequence: 8 }, { ...whole, recordedAt: 'x' }, { ...whole, previousHash: FIRST_PREVIOUS_HASH }, { ...whole, identity: undefined },
    ];
    const hashes = [whole, ...changed].map(hashEvent);
    expect(new Set(hashes).size).toBe(hashes.length);
  });
});
