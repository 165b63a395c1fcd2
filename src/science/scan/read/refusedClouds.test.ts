import { describe, expect, test } from 'vitest';
import { openCloud } from './openCloud.ts';

/** A binary PLY of 1000 points whose third has the given z. */
function ply(z: number, header = (text: string) => text): Uint8Array {
  const head = header(['ply', 'format binary_little_endian 1.0', 'element vertex 1000', 'property float x', 'property float y', 'property float z', 'end_header', ''].join('\n'));
  const body = new Float32Array(3000).fill(0.5);
  body[8] = z;
  return new Uint8Array(Buffer.concat([Buffer.from(head, 'latin1'), new Uint8Array(body.buffer)]));
}

function read(bytes: Uint8Array) {
  const opened = openCloud(bytes, { name: 'basin.ply', bytes: bytes.length });
  if (!opened.ok) return opened;
  const stream = opened.value.startStream();
  stream.push(bytes);
  return stream.finish();
}

describe('a cloud is refused with place, value and limit', () => {
  test('sound ones are read', () => expect(read(ply(0.1))).toMatchObject({ ok: true, value: { count: 1000 } }));

  test.each([
    ['a point that is not finite', ply(Number.NaN), { code: 'cloud-point-unsound', path: 'basin.ply point 2' }],
    ['a point absurdly far away', ply(2e6), { code: 'cloud-point-unsound', path: 'basin.ply point 2' }],
    ['bytes lost', ply(0.1).subarray(0, 9000), { code: 'cloud-length-wrong', path: 'basin.ply', value: 9000, limit: 12_118, unit: 'By' }],
    ['too few points', ply(0.1, (text) => text.replace('1000', '12')), { code: 'cloud-size-absurd', value: 12, limit: 1000 }],
    ['too many points', ply(0.1, (text) => text.replace('1000', '4000000000')), { code: 'cloud-size-absurd', value: 4_000_000_000, limit: 30_000_000 }],
    ['no height', ply(0.1, (text) => text.replace('float z', 'float h')), { code: 'value-missing', limit: ['x', 'y', 'z'] }],
    ['a wrong word in the header', ply(0.1, (text) => text.replace('float y', 'flaot y')), { code: 'syntax', path: 'basin.ply:5', value: 'property flaot y' }],
    ['another format', new TextEncoder().encode('solid stl'), { code: 'cloud-format-unknown', path: 'basin.ply', value: 'solid stl' }],
  ])('%s', (_, bytes, refusal) => expect(read(bytes)).toMatchObject({ ok: false, refusals: expect.arrayContaining([expect.objectContaining(refusal)]) }));
});
