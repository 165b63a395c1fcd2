/** Writes point clouds in every form that is read, with random shapes, so that readers can be checked against what was written. */
import type { RandomStream } from '../../src/science/seededRandom.ts';
import type { FieldType } from '../../src/science/scan/pointRecords.ts';
import { BYTES_OF } from '../../src/science/scan/read/fieldType.ts';
import { packLzf } from './packLzf.ts';
import { writeLas } from './writeLas.ts';

/** What was written: coordinates as the file holds them, colours 0 to 255. */
export interface WrittenCloud {
  readonly kind: string;
  readonly bytes: Uint8Array;
  readonly points: readonly (readonly [x: number, y: number, z: number])[];
  readonly colours?: readonly (readonly [red: number, green: number, blue: number])[];
}

export interface Column { readonly name: string; readonly type: FieldType; readonly values: readonly number[] }

/** A number as the type holds it. */
export function held(value: number, type: FieldType): number {
  if (type === 'float64') return value;
  return type === 'float32' ? Math.fround(value) : Math.round(value);
}

export function put(view: DataView, at: number, type: FieldType, value: number, little: boolean): void {
  const put = { int8: view.setInt8, uint8: view.setUint8, int16: view.setInt16, uint16: view.setUint16, int32: view.setInt32, uint32: view.setUint32, float32: view.setFloat32, float64: view.setFloat64 }[type] as (at: number, value: number, little?: boolean) => void;
  put.call(view, at, value, little);
}

export function shuffled<T>(items: readonly T[], random: RandomStream): T[] {
  const order = [...items];
  for (let i = order.length - 1; i > 0; i -= 1) {
    const j = random.below(i + 1);
    [order[i], order[j]] = [order[j]!, order[i]!];
  }
  return order;
}

const pick = <T>(items: readonly T[], random: RandomStream): T => items[random.below(items.length)]!;

export function join(parts: readonly (Uint8Array | string)[]): Uint8Array {
  return new Uint8Array(Buffer.concat(parts.map((part) => typeof part === 'string' ? Buffer.from(part, 'latin1') : part)));
}

interface Scene { readonly columns: Column[]; readonly points: [number, number, number][]; readonly colours?: [number, number, number][] }

/** A basin-like cloud in mm or m, maybe far from zero, with columns of random types. */
function makeScene(count: number, random: RandomStream, types: readonly FieldType[], colourNames: readonly string[] | undefined): Scene {
  const positionType = pick(types, random);
  const inMetres = positionType.startsWith('float') && random.uniform() < 0.5;
  const far = positionType === 'float64' && random.uniform() < 0.3 ? 4_500_000 : 0;
  const size = inMetres ? 1.3 : 1300;
  const points = Array.from({ length: count }, () => [size * random.uniform() + far, -size * random.uniform(), 0.1 * size * random.uniform()].map((value) => held(value, positionType)) as [number, number, number]);
  const columns: Column[] = (['x', 'y', 'z'] as const).map((name, axis) => ({ name, type: positionType, values: points.map((point) => point[axis]!) }));
  if (colourNames === undefined) return { columns, points };
  const colours = points.map(() => [random.below(256), random.below(256), random.below(256)] as [number, number, number]);
  const colourType = pick(['uint8', 'uint16', 'float32'] as const, random);
  const full = { uint8: 255, uint16: 65_535, float32: 1 }[colourType];
  colourNames.forEach((name, i) => columns.push({ name, type: colourType, values: colours.map((colour) => held(colour[i]! / 255 * full, colourType)) }));
  return { columns, points, colours };
}

/** Other numbers of the points, which readers pass over; among them some that are not finite. */
function extraColumns(count: number, random: RandomStream): Column[] {
  const kinds: FieldType[] = ['int8', 'uint16', 'int32', 'float32', 'float64'];
  return Array.from({ length: random.below(4) }, (_, i) => {
    const type = pick(kinds, random);
    return { name: `extra${i}`, type, values: Array.from({ length: count }, () => type.startsWith('float') && random.uniform() < 0.05 ? Number.NaN : held(100 * random.uniform(), type)) };
  });
}

const PLY_NAMES: Readonly<Record<FieldType, readonly string[]>> = {
  int8: ['char', 'int8'], uint8: ['uchar', 'uint8'], int16: ['short', 'int16'], uint16: ['ushort', 'uint16'], int32: ['int', 'int32'], uint32: ['uint', 'uint32'], float32: ['float', 'float32'], float64: ['double', 'float64'],
};

/** Lists stand for a property of the vertices (`inside`) or elements of their own. */
export function writePly(count: number, random: RandomStream): WrittenCloud {
  const coding = pick(['ascii', 'binary_little_endian', 'binary_big_endian'] as const, random);
  const lineEnd = pick(['\n', '\r\n'], random);
  const scene = makeScene(count, random, ['float32', 'float64', 'int16', 'int32'], pick([undefined, ['red', 'green', 'blue'], ['r', 'g', 'b'], ['diffuse_red', 'diffuse_green', 'diffuse_blue']], random));
  const columns = shuffled([...scene.columns, ...extraColumns(count, random)], random);
  const [before, inside, after] = [random.uniform() < 0.3, random.uniform() < 0.3, random.uniform() < 0.3];
  const faces = (name: string) => [`element ${name} 7`, 'property list uchar int vertex_indices', 'property float weight'];
  const vertex = [`element vertex ${count}`, ...columns.map(({ name, type }) => `property ${pick(PLY_NAMES[type], random)} ${name}`)];
  if (inside) vertex.splice(2, 0, 'property list ushort double neighbours');
  const header = ['ply', `format ${coding} 1.0`, 'comment own work', ...(before ? faces('camera') : []), ...vertex, ...(after ? faces('face') : []), 'end_header'];
  const rows = coding === 'ascii' ? textRows(lineEnd) : binaryRows(coding === 'binary_little_endian');
  const faceRow: RowPart[] = [{ list: 'uint8', type: 'int32', values: [1, 2, 3] }, { type: 'float32', values: [0.5] }];
  const faceRows = Array.from({ length: 7 }, () => rows(faceRow));
  const body = Array.from({ length: count }, (_, i) => {
    const parts: RowPart[] = columns.map(({ type, values }) => ({ type, values: [values[i]!] }));
    if (inside) parts.splice(1, 0, { list: 'uint16', type: 'float64', values: Array.from({ length: random.below(4) }, () => random.uniform()) });
    return rows(parts);
  });
  return { kind: `ply ${coding}`, points: scene.points, colours: scene.colours, bytes: join([header.map((line) => line + lineEnd).join(''), ...(before ? faceRows : []), ...body, ...(after ? faceRows : [])]) };
}

interface RowPart { readonly list?: FieldType; readonly type: FieldType; readonly values: readonly number[] }

const textRows = (lineEnd: string) => (parts: readonly RowPart[]): string =>
  parts.map(({ list, values }) => [...(list === undefined ? [] : [values.length]), ...values].join(' ')).join(' ') + lineEnd;

const binaryRows = (little: boolean) => (parts: readonly RowPart[]): Uint8Array => {
  const size = parts.reduce((sum, { list, type, values }) => sum + (list === undefined ? 0 : BYTES_OF[list]) + values.length * BYTES_OF[type], 0);
  const view = new DataView(new ArrayBuffer(size));
  let at = 0;
  for (const { list, type, values } of parts) {
    if (list !== undefined) { put(view, at, list, values.length, little); at += BYTES_OF[list]; }
    for (const value of values) { put(view, at, type, value, little); at += BYTES_OF[type]; }
  }
  return new Uint8Array(view.buffer);
};

const PCD_KIND: Readonly<Record<FieldType, string>> = { int8: 'I1', uint8: 'U1', int16: 'I2', uint16: 'U2', int32: 'I4', uint32: 'U4', float32: 'F4', float64: 'F8' };

export function writePcd(count: number, random: RandomStream): WrittenCloud {
  const coding = pick(['ascii', 'binary', 'binary_compressed'] as const, random);
  const scene = makeScene(count, random, ['float32', 'float64', 'int32'], pick([undefined, ['r', 'g', 'b']], random));
  let { colours } = scene;
  const extras: (Column & { readonly kind?: string })[] = extraColumns(count, random);
  if (colours === undefined && random.uniform() < 0.7) {
    colours = scene.points.map(() => [random.below(256), random.below(256), random.below(256)] as [number, number, number]);
    extras.push({ name: 'rgb', type: 'uint32', kind: coding === 'ascii' ? 'U4' : pick(['F4', 'U4'], random), values: colours.map(([red, green, blue]) => red << 16 | green << 8 | blue) });
  }
  const columns: (Column & { readonly kind?: string })[] = shuffled([...scene.columns, ...extras], random);
  // A field of several numbers, as descriptors have: passed over.
  const wide = random.uniform() < 0.3;
  const kinds = columns.map(({ type, kind }) => kind ?? PCD_KIND[type]);
  const header = ['# .PCD v0.7', 'VERSION 0.7', `FIELDS ${[...columns.map(({ name }) => name), ...(wide ? ['wide'] : [])].join(' ')}`, `SIZE ${[...kinds.map((kind) => kind[1]), ...(wide ? [2] : [])].join(' ')}`,
    `TYPE ${[...kinds.map((kind) => kind[0]), ...(wide ? ['U'] : [])].join(' ')}`, `COUNT ${[...kinds.map(() => 1), ...(wide ? [3] : [])].join(' ')}`,
    `WIDTH ${count}`, 'HEIGHT 1', 'VIEWPOINT 0 0 0 1 0 0 0', `POINTS ${count}`, `DATA ${coding}`].map((line) => `${line}\n`).join('');
  const parts: RowPart[][] = Array.from({ length: count }, (_, i) => [...columns.map(({ type, values }) => ({ type, values: [values[i]!] })), ...(wide ? [{ type: 'uint16' as const, values: [1, 2, i % 60_000] }] : [])]);
  const told = { kind: `pcd ${coding}`, points: scene.points, colours };
  if (coding === 'ascii') return { ...told, bytes: join([header, ...parts.map(textRows('\n'))]) };
  if (coding === 'binary') return { ...told, bytes: join([header, ...parts.map(binaryRows(true))]) };
  const plain = join(parts[0]!.map((_, field) => join(parts.map((row) => binaryRows(true)([row[field]!])))));
  const packed = packLzf(plain);
  const sizes = new Uint8Array(new Uint32Array([packed.length, plain.length]).buffer);
  return { ...told, bytes: join([header, sizes, packed]) };
}

/** One of all forms but LAZ. */
export function writeCloud(count: number, random: RandomStream): WrittenCloud {
  const kind = random.below(7);
  return kind < 4 ? writePly(count, random) : kind < 6 ? writePcd(count, random) : writeLas(count, random, false);
}
