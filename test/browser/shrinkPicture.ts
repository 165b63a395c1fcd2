import { deflateSync, inflateSync } from 'node:zlib';

const SIGNATURE = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);

/** An 8-bit RGB or RGBA PNG without interlace as a palette PNG: pages have few colours. Follows PNG 1.2 (RFC 2083), chapters 3 to 6. */
export function shrinkPicture(png: Buffer): Buffer {
  const chunks = readChunks(png);
  const header = chunks.find((is) => is.type === 'IHDR')!.body;
  const [width, height, depth, colour] = [header.readUInt32BE(0), header.readUInt32BE(4), header[8], header[9]];
  if (depth !== 8 || (colour !== 2 && colour !== 6) || header[12] !== 0) return png;
  const channels = colour === 6 ? 4 : 3;
  const pixels = unfilter(inflateSync(Buffer.concat(chunks.filter((is) => is.type === 'IDAT').map((is) => is.body))), width, height, channels);
  const { palette, indices } = makePalette(pixels, width * height, channels);
  const rows = Buffer.alloc(height * (width + 1));
  for (let y = 0; y < height; y += 1) indices.copy(rows, y * (width + 1) + 1, y * width, (y + 1) * width);
  const newHeader = Buffer.from(header);
  newHeader[9] = 3;
  return Buffer.concat([SIGNATURE, chunk('IHDR', newHeader), chunk('PLTE', palette), chunk('IDAT', deflateSync(rows, { level: 9, memLevel: 9 })), chunk('IEND', Buffer.alloc(0))]);
}

function readChunks(png: Buffer): { type: string; body: Buffer }[] {
  const chunks: { type: string; body: Buffer }[] = [];
  for (let at = 8; at < png.length;) {
    const length = png.readUInt32BE(at);
    chunks.push({ type: png.toString('latin1', at + 4, at + 8), body: png.subarray(at + 8, at + 8 + length) });
    at += 12 + length;
  }
  return chunks;
}

function unfilter(raw: Buffer, width: number, height: number, channels: number): Buffer {
  const stride = width * channels;
  const out = Buffer.alloc(stride * height);
  for (let y = 0; y < height; y += 1) {
    const filter = raw[y * (stride + 1)]!;
    for (let x = 0; x < stride; x += 1) {
      const left = x >= channels ? out[y * stride + x - channels]! : 0;
      const up = y > 0 ? out[(y - 1) * stride + x]! : 0;
      const corner = x >= channels && y > 0 ? out[(y - 1) * stride + x - channels]! : 0;
      out[y * stride + x] = raw[y * (stride + 1) + 1 + x]! + guess(filter, left, up, corner);
    }
  }
  return out;
}

function guess(filter: number, left: number, up: number, corner: number): number {
  if (filter === 1) return left;
  if (filter === 2) return up;
  if (filter === 3) return (left + up) >> 1;
  if (filter !== 4) return 0;
  const [byLeft, byUp, byCorner] = [Math.abs(up - corner), Math.abs(left - corner), Math.abs(left + up - 2 * corner)];
  if (byLeft <= byUp && byLeft <= byCorner) return left;
  return byUp <= byCorner ? up : corner;
}

/** The 256 most frequent colours stay exactly as they are; each other one becomes the nearest of them. */
function makePalette(pixels: Buffer, count: number, channels: number): { palette: Buffer; indices: Buffer } {
  const keyAt = (pixel: number): number => (pixels[pixel * channels]! << 16) | (pixels[pixel * channels + 1]! << 8) | pixels[pixel * channels + 2]!;
  const often = new Map<number, number>();
  for (let pixel = 0; pixel < count; pixel += 1) often.set(keyAt(pixel), (often.get(keyAt(pixel)) ?? 0) + 1);
  const kept = [...often.entries()].sort((a, b) => b[1] - a[1]).slice(0, 256).map(([key]) => key);
  const index = new Map([...often.keys()].map((key) => [key, nearest(kept, key)]));
  const indices = Buffer.alloc(count);
  for (let pixel = 0; pixel < count; pixel += 1) indices[pixel] = index.get(keyAt(pixel))!;
  return { palette: Buffer.from(kept.flatMap((key) => [key >> 16, (key >> 8) & 255, key & 255])), indices };
}

function nearest(kept: readonly number[], key: number): number {
  let [best, least] = [0, Number.POSITIVE_INFINITY];
  kept.forEach((is, place) => {
    const far = ((is >> 16) - (key >> 16)) ** 2 + (((is >> 8) & 255) - ((key >> 8) & 255)) ** 2 + ((is & 255) - (key & 255)) ** 2;
    if (far < least) [best, least] = [place, far];
  });
  return best;
}

const CRC_TABLE = Uint32Array.from({ length: 256 }, (_, start) => {
  let crc = start;
  for (let bit = 0; bit < 8; bit += 1) crc = crc & 1 ? 0xedb88320 ^ (crc >>> 1) : crc >>> 1;
  return crc;
});

function chunk(type: string, body: Buffer): Buffer {
  const out = Buffer.alloc(12 + body.length);
  out.writeUInt32BE(body.length, 0);
  out.write(type, 4, 'latin1');
  body.copy(out, 8);
  let crc = 0xffffffff;
  for (const byte of out.subarray(4, 8 + body.length)) crc = CRC_TABLE[(crc ^ byte) & 255]! ^ (crc >>> 8);
  out.writeUInt32BE((crc ^ 0xffffffff) >>> 0, 8 + body.length);
  return out;
}
