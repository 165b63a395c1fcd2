import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import fastify, { type FastifyInstance } from 'fastify';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { FieldHeader, PointsHeader } from '../../src/desk/contract.ts';
import type { DeskParts } from '../../src/desk/deskParts.ts';
import { answerErrors } from '../../src/desk/http/answerErrors.ts';
import { compressAnswers } from '../../src/desk/http/compressAnswers.ts';
import { imagingRoutes } from '../../src/desk/routes/imagingRoutes.ts';
import { measureCloud, type MeasuredCloud } from '../../src/store/scan/measureCloud.ts';
import { pictureFiles } from '../../src/store/scan/pictureFiles.ts';
import { makeScene, SCENE_LAYOUT } from '../../src/twin/scan/makeScene.ts';
import { writePly } from '../../src/twin/scan/writePly.ts';
import { inventPlants, inventScan } from './inventScan.ts';

const SCAN = '0123456789abcdef', GONE = 'ffffffffffffffff', POINTS = 120_000;
const folder = mkdtempSync(join(tmpdir(), 'watermeadow-pictures-'));
let app: FastifyInstance, measured: MeasuredCloud;

/** The routes with the files of a cloud that was really measured; of the desk they need the book of scans and the folder of pictures. */
beforeAll(async () => {
  const cloud = join(folder, 'a.ply');
  writeFileSync(cloud, writePly(makeScene({ stage: 'young', seed: 2, rig: { pixelMm: 5 } }).cloud, POINTS));
  const outcome = await measureCloud({ path: cloud, scan: SCAN, layout: SCENE_LAYOUT, earlier: [], pictures: folder }, () => undefined);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.refusals));
  measured = outcome.value;
  const byScan = new Map([SCAN, GONE].map((scan) => [scan, inventScan(inventPlants(), { scan })]));
  app = fastify();
  compressAnswers(app);
  answerErrors(app, false);
  imagingRoutes(app, { imaging: { pictures: folder }, scores: { book: () => ({ byScan }) } } as unknown as DeskParts);
});
afterAll(async () => {
  await app.close();
  rmSync(folder, { recursive: true });
});

const ask = (path: string, headers: Record<string, string> = {}) => app.inject({ url: `/api/imaging/${path}`, headers });
function parse<T>(bytes: Buffer): { header: T; body: Buffer } {
  const length = bytes.readUInt32LE(0);
  expect(length % 4).toBe(0);
  return { header: JSON.parse(bytes.subarray(4, 4 + length).toString('utf8')) as T, body: bytes.subarray(4 + length) };
}

describe('the height picture of a scan', () => {
  it('is sent packed as it is kept, or unpacked to whoever does not take that, and may be kept by the browser for ever', async () => {
    const packed = await ask(`B001/${SCAN}/field`, { 'accept-encoding': 'gzip, br' }), plain = await ask(`B001/${SCAN}/field`);
    expect([packed.statusCode, plain.statusCode]).toEqual([200, 200]);
    expect(packed.headers).toMatchObject({ 'content-type': 'application/octet-stream', 'content-encoding': 'gzip', 'cache-control': 'private, max-age=31536000, immutable', vary: 'accept-encoding', 'content-length': String(statSync(pictureFiles(folder, SCAN).picture).size) });
    expect(plain.headers['content-encoding']).toBeUndefined();
    expect(gunzipSync(packed.rawPayload).equals(plain.rawPayload)).toBe(true);
  });

  it('holds a header, and for each cell height, label and colour of what was measured', async () => {
    const { header, body } = parse<FieldHeader>((await ask(`B001/${SCAN}/field`)).rawPayload), cells = header.columns * header.rows;
    expect(header).toMatchObject({ cellMm: measured.quality.cellMm, coloured: true });
    expect(header.leftMm).toBeLessThan(-SCENE_LAYOUT.innerMm[0] / 2);
    expect(body.length).toBe(cells * 7);
    const labels = Array.from({ length: cells }, (_, cell) => body.readUInt16LE(2 * (cells + cell))), heights = Array.from({ length: cells }, (_, cell) => body.readUInt16LE(2 * cell));
    expect([...new Set(labels)].filter((label) => label > 0).sort((a, b) => a - b)).toEqual(measured.plants.flatMap(({ present }, i) => (present ? [i + 1] : [])));
    const tallest = Math.max(...heights) * header.heightStepMm + header.heightFromMm;
    expect(tallest).toBeGreaterThan(Math.max(...measured.plants.map(({ heightP95Mm }) => heightP95Mm)) - 1);
  });
});

describe('the points of a scan', () => {
  const points = async (query: string) => parse<PointsHeader>((await ask(`B001/${SCAN}/points${query}`)).rawPayload);

  it('come in stretches that together are all, with eight bytes of place and three of colour each', async () => {
    const all = await points('?from=0&count=2000000'), { kept } = all.header;
    expect(kept).toBeGreaterThan(0.8 * POINTS);
    expect(all.header).toMatchObject({ from: 0, count: kept });
    expect(all.body.length).toBe(11 * kept);
    const [first, second] = [await points('?count=1000'), await points('?from=1000&count=500')];
    expect([first.header.count, second.header.from, second.header.count]).toEqual([1000, 1000, 500]);
    expect(Buffer.concat([first.body.subarray(0, 8000), second.body.subarray(0, 4000)]).equals(all.body.subarray(0, 12_000))).toBe(true);
    expect(Buffer.concat([first.body.subarray(8000), second.body.subarray(4000)]).equals(all.body.subarray(8 * kept, 8 * kept + 4500))).toBe(true);
    for (let i = 0; i < kept; i += 997) expect(all.body.readUInt16LE(8 * i + 6)).toBeLessThanOrEqual(measured.plants.length);
  });

  it('past the end are none; without a count they are 200,000 at most; and they are not packed', async () => {
    expect(await points('?from=999999999')).toMatchObject({ header: { count: 0 }, body: { length: 0 } });
    const answer = await ask(`B001/${SCAN}/points`, { 'accept-encoding': 'gzip' });
    expect(answer.headers).toMatchObject({ 'content-type': 'application/octet-stream', 'cache-control': 'private, max-age=31536000, immutable', 'content-length': String(answer.rawPayload.length) });
    expect(answer.headers['content-encoding']).toBeUndefined();
    expect(parse<PointsHeader>(answer.rawPayload).header.count).toBeLessThanOrEqual(200_000);
  });
});

describe('what there is not', () => {
  it.each<[string, string, string, string]>([
    ['a scan that nobody made', 'B001/00000000000000aa', 'reference-unknown', 'no scan 00000000000000aa of basin B001'],
    ['a scan of another basin', `B002/${SCAN}`, 'reference-unknown', `no scan ${SCAN} of basin B002`],
    ['an address that is none', 'B001/..%2f..%2fetc', 'value-not-allowed', ''],
    ['files that were removed', `B001/${GONE}`, 'file-missing', 'removed'],
  ])('%s is refused in words, for the picture and for the points', async (_, path, code, words) => {
    for (const what of ['field', 'points']) {
      const answer = await ask(`${path}/${what}`), { refusals } = answer.json<{ refusals: { code: string; message: string }[] }>();
      expect([what, answer.statusCode, refusals[0]!.code]).toEqual([what, 422, code]);
      expect(refusals[0]!.message).toContain(words);
      expect(answer.headers['cache-control'] ?? '').not.toContain('immutable');
    }
  });

  it.each(['?count=0', '?count=2000001', '?from=-1', '?from=x'])('a stretch %s is refused', async (query) => {
    const answer = await ask(`B001/${SCAN}/points${query}`);
    expect(answer.statusCode).toBe(422);
    expect(answer.json<{ refusals: { path: string }[] }>().refusals[0]!.path).toMatch(/^query/);
  });

  it('a file of points that ends early is a fault, not a short answer', async () => {
    const { points } = pictureFiles(folder, SCAN), whole = statSync(points).size;
    const bytes = readFileSync(points);
    writeFileSync(points, bytes.subarray(0, whole - 100));
    try { expect((await ask(`B001/${SCAN}/points?count=2000000`)).statusCode).toBe(500); } finally { writeFileSync(points, bytes); }
  });
});
