import type { FileHandle } from 'node:fs/promises';
import { headerBytes } from '../../science/scan/picture/pictureBytes.ts';

interface KeptHeader { readonly kept: number; readonly lowMm: readonly number[]; readonly highMm: readonly number[]; readonly coloured: boolean }

const PLACE_BYTES = 8;
const COLOUR_BYTES = 3;

/** A stretch of the points that are kept of a scan, with a header that says which. */
export async function readPoints(file: FileHandle, from: number, count: number): Promise<Buffer> {
  const length = (await read(file, 0, 4)).readUInt32LE(0);
  const header = JSON.parse((await read(file, 4, length)).toString('utf8')) as KeptHeader;
  const first = Math.min(from, header.kept), many = Math.min(count, header.kept - first);
  const places = await read(file, 4 + length + first * PLACE_BYTES, many * PLACE_BYTES);
  const colours = await read(file, 4 + length + header.kept * PLACE_BYTES + first * COLOUR_BYTES, many * COLOUR_BYTES);
  return Buffer.concat([headerBytes({ ...header, from: first, count: many }), places, colours]);
}

async function read(file: FileHandle, at: number, bytes: number): Promise<Buffer> {
  const buffer = Buffer.alloc(bytes);
  for (let got = 0; got < bytes;) {
    const { bytesRead } = await file.read(buffer, got, bytes - got, at + got);
    if (bytesRead === 0) throw new Error('a file of kept points ends early');
    got += bytesRead;
  }
  return buffer;
}
