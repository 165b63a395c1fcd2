import { describe, expect, it } from 'vitest';
import { StoreFault } from '../storeFault.ts';
import { asStoreFault, isAway } from './asStoreFault.ts';

const failed = (code: string | undefined, message = 'x') => Object.assign(new Error(message), code === undefined ? {} : { code });

describe('faults of a database', () => {
  it.each([
    ['28P01', 'login-refused', false], ['3D000', 'login-refused', false], ['42501', 'login-refused', false], ['53100', 'disk-full', true], ['XX001', 'storage-damaged', false],
    ['57P01', 'engine-unreachable', true], ['57P03', 'engine-unreachable', true], ['08006', 'engine-unreachable', true], ['ECONNREFUSED', 'engine-unreachable', true],
    ['ENOTFOUND', 'engine-unreachable', true], ['53300', 'engine-unreachable', true],
  ] as const)('%s is %s', (code, fault, retryHelps) => {
    const found = asStoreFault(failed(code)) as StoreFault;
    expect([found.fault, found.retryHelps, (found.cause as { code: string }).code]).toEqual([fault, retryHelps, code]);
  });

  it('knows a broken connection by what the driver says', () => {
    expect(isAway(asStoreFault(failed(undefined, 'Connection terminated unexpectedly')))).toBe(true);
    expect(isAway(asStoreFault(failed(undefined, 'Client has encountered a connection error and is not queryable')))).toBe(true);
  });

  it('leaves a bug a bug', () => {
    for (const bug of [failed('42601'), failed('23505'), new TypeError('x'), 'x']) expect(asStoreFault(bug)).toBe(bug);
    const fault = new StoreFault('lock-lost', 'x');
    expect(asStoreFault(fault)).toBe(fault);
  });
});
