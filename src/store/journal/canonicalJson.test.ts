import { describe, expect, it } from 'vitest';
import * as fc from 'fast-check';
import { NotPlainJson, canonicalJson } from './canonicalJson.ts';

describe('canonical JSON', () => {
  it('writes the example of RFC 8785, section 3.2.2 to 3.2.4', () => {
    console.log('canonical JSON against RFC 8785: the worked example of section 3.2, the sorting example of 3.2.3, numbers of appendix B');
    const example = JSON.parse(String.raw`{"numbers":[333333333.33333329,1E30,4.50,2e-3,0.000000000000000000000000001],"string":"\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/","literals":[null,true,false]}`) as unknown;
    expect(canonicalJson(example)).toBe(
      String.raw`{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\u000f\nA'B\"\\\\\"/"}`);
  });

  it('sorts keys by UTF-16 code units, as RFC 8785, section 3.2.3', () => {
    const unsorted = JSON.parse(String.raw`{"\u20ac":"Euro Sign","\r":"Carriage Return","\ufb33":"Hebrew Letter Dalet With Dagesh","1":"One","\ud83d\ude00":"Emoji: Grinning Face","\u0080":"Control","\u00f6":"Latin Small Letter O With Diaeresis"}`) as unknown;
    const values = [...canonicalJson(unsorted).matchAll(/:"([^"]*)"/g)].map((match) => match[1]!);
    expect(values).toEqual(['Carriage Return', 'One', 'Control', 'Latin Small Letter O With Diaeresis', 'Euro Sign', 'Emoji: Grinning Face', 'Hebrew Letter Dalet With Dagesh']);
  });

  it.each([
    ['0000000000000000', '0'], ['8000000000000000', '0'], ['0000000000000001', '5e-324'], ['7fefffffffffffff', '1.7976931348623157e+308'],
    ['4340000000000000', '9007199254740992'], ['444b1ae4d6e2ef50', '1e+21'], ['3eb0c6f7a0b5ed8d', '0.000001'], ['41b3de4355555557', '333333333.33333343'],
  ])('writes the number %s of appendix B as %s', (ieee754, text) => {
    expect(canonicalJson(Buffer.from(ieee754, 'hex').readDoubleBE())).toBe(text);
  });

  it('leaves out what is undefined and says where something has no JSON form', () => {
    expect(canonicalJson({ b: undefined, a: { c: [], d: undefined } })).toBe('{"a":{"c":[]}}');
    for (const [value, path] of [[{ a: { b: [1, Number.NaN] } }, 'a.b[1]'], [[undefined], '[0]'], [{ when: new Date(0) }, 'when'], [{ many: new Map() }, 'many'],
      [{ big: 1n }, 'big'], [{ nul: 'a\0b' }, 'nul'], [{ half: '\ud800' }, 'half'], [{ bytes: new Uint8Array(1) }, 'bytes'], [{ act: () => 1 }, 'act']] as const) {
      expect(() => canonicalJson(value)).toThrow(NotPlainJson);
      expect(pathOf(value)).toBe(path);
    }
  });

  it('says the same thing whatever the order of the keys, and reads back as it was', () => {
    fc.assert(fc.property(fc.jsonValue(), (value) => {
      const text = plainText(value);
      if (text === undefined) return;
      expect(canonicalJson(JSON.parse(text))).toBe(text);
      expect(canonicalJson(turnKeys(value))).toBe(text);
    }), { seed: 20261125, numRuns: 300 });
  });
});

function pathOf(value: unknown): string | undefined {
  try {
    canonicalJson(value);
  } catch (error) {
    return error instanceof NotPlainJson ? error.path : undefined;
  }
}

function plainText(value: unknown): string | undefined {
  try {
    return canonicalJson(value);
  } catch {
    return undefined;
  }
}

function turnKeys(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(turnKeys);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).reverse().map(([key, entry]) => [key, turnKeys(entry)]));
}
