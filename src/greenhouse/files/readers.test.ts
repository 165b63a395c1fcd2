import { describe, expect, it } from 'vitest';
import { cropCard } from '../schema/cropCard.ts';
import { orderRow } from '../schema/tableRows.ts';
import { readTableFile } from './readTableFile.ts';
import { readYamlFile } from './readYamlFile.ts';

const refusalsOf = (text: string) => { const read = readTableFile('orders.csv', text, orderRow); return read.ok ? [] : read.refusals; };
const HEAD = 'order,line,customer,crop,units,due\n';

describe('readTableFile', () => {
  it('reads past a byte order mark, comments, empty lines, quotes and CRLF', () => {
    const read = readTableFile('orders.csv', '\uFEFF# ours\r\norder,line,customer,crop,units,due\r\n\r\nS1,1,"Gull, Lane",basil,5,2026-11-25\r\n', orderRow);
    expect(read.ok && read.value[0]!.value).toMatchObject({ order: 'S1', customer: 'Gull, Lane', units: 5 });
    expect(read.ok && read.value[0]!.placeOf('units')).toEqual({ line: 4, column: 25 });
  });

  it('lists everything that is wrong at once, each with line and column', () => {
    const found = refusalsOf(`${HEAD}S1,1,A,basil,0,2026-11-25\n# so\nS2,1,A,basil,many,2026-02-30\n`);
    expect(found.map((each) => [each.code, each.path])).toEqual([
      ['value-out-of-range', 'orders.csv:2:14'], ['value-not-a-number', 'orders.csv:4:14'], ['value-not-allowed', 'orders.csv:4:19'],
    ]);
    expect(found[0]).toMatchObject({ value: 0, limit: '0.001 to 1000000' });
  });

  it('names the nearest column, a decimal comma, semicolons and an open quote for what they are', () => {
    expect(refusalsOf('order,line,costumer,crop,units,due\n')[0]).toMatchObject({ code: 'key-unknown', path: 'orders.csv:1:12', message: expect.stringContaining("did you mean 'customer'") as string });
    expect(refusalsOf(`${HEAD}S1,1,A,basil,2,5,2026-11-25\n`)[0]).toMatchObject({ code: 'syntax', message: expect.stringContaining('decimals with a point') as string });
    expect(refusalsOf('order;line;customer;crop;units;due\n')[0]).toMatchObject({ code: 'syntax', message: expect.stringContaining('commas between') as string });
    expect(refusalsOf(`${HEAD}S1,1,"A,basil,2,2026-11-25\nS2,1,B,basil,2,2026-11-25\n`)[0]).toMatchObject({ code: 'syntax', path: 'orders.csv:2:6' });
  });
});

describe('readYamlFile', () => {
  const codes = (text: string) => { const read = readYamlFile('crops/x.yaml', text, cropCard); return read.ok ? [] : read.refusals; };

  it('points at an unknown key and suggests the nearest one', () => {
    expect(codes('id: x\ntitel: X\n').find((each) => each.code === 'key-unknown')).toMatchObject({ path: 'crops/x.yaml:2:1', message: expect.stringContaining("did you mean 'title'") as string });
  });

  it('refuses anchors that multiply, nesting without end and keys that stand twice', () => {
    const bomb = `a: &a [x, x, x, x, x, x, x, x, x]\n${'bcdefghi'.split('').map((key, i) => `${key}: &${key} [${Array.from({ length: 9 }, () => `*${'abcdefgh'[i]}`).join(', ')}]`).join('\n')}\n`;
    expect(codes(bomb)[0]).toMatchObject({ code: 'file-unreadable', path: 'crops/x.yaml:1:1' });
    expect(codes(`x: ${'['.repeat(50_000)}`).length).toBeGreaterThan(0);
    expect(codes('id: x\nid: y\n')[0]).toMatchObject({ code: 'duplicate', path: 'crops/x.yaml:2:1' });
  });

  it('says value, range and unit of a number that is out of range', () => {
    expect(codes('gramsPerUnit: -3\n').find((each) => each.path === 'crops/x.yaml:1:15')).toMatchObject({ code: 'value-out-of-range', value: -3, limit: '1 to 5000', unit: 'g' });
  });
});
