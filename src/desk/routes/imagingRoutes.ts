import { existsSync } from 'node:fs';
import { open, readFile } from 'node:fs/promises';
import { gunzipSync } from 'node:zlib';
import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import { basinLayoutOf } from '../../greenhouse/basinLayoutOf.ts';
import { SCORE_CLASSES, type ScanMeasured } from '../../greenhouse/scanEvents.ts';
import { sameLot } from '../../planning/imaging/scanBook.ts';
import { pictureFiles } from '../../store/scan/pictureFiles.ts';
import { readPoints } from '../../store/scan/readKeptPoints.ts';
import type { AcceptedAnswer, BasinScansAnswer, ImagingAnswer, ScanAnswer, ScannedBasin } from '../contract.ts';
import type { DeskParts } from '../deskParts.ts';
import { parseOrRefuse, RefusedRequest, refuse } from '../http/answers.ts';
import { classifierTrust, scanSummary, scanView } from '../views/imagingViews.ts';

const basinParams = z.strictObject({ basin: z.string().min(1).max(48) });
const scanParams = z.strictObject({ basin: z.string().min(1).max(48), scan: z.string().regex(/^[0-9a-f]{16}$/) });
const pointsQuery = z.strictObject({ from: z.coerce.number().int().min(0).max(1e9).default(0), count: z.coerce.number().int().min(1).max(2_000_000).default(200_000) });
const scoreBody = z.strictObject({
  by: z.string().min(1).max(48),
  marks: z.array(z.strictObject({
    raft: z.number().int().min(1).max(60), position: z.number().int().min(1).max(40_000).optional(),
    class: z.enum(SCORE_CLASSES), words: z.string().trim().min(1).max(200).optional(),
  })).min(1).max(500),
});

/** Scans of basins: the queue, figures of plants, pictures, growers' scores. */
export function imagingRoutes(app: FastifyInstance, desk: DeskParts): void {
  app.get('/api/imaging', (): Promise<ImagingAnswer> => imagingAnswer(desk));
  app.get('/api/imaging/:basin', (request): BasinScansAnswer => basinAnswer(desk, parseOrRefuse(basinParams, request.params, 'address').basin));
  app.get('/api/imaging/:basin/:scan', (request): ScanAnswer => {
    const scan = demandScan(desk, request.params);
    return scanView(desk.scores.book(), scan, desk.scores.learnt(), raftsOf(desk, scan), existsSync(pictureFiles(desk.imaging.pictures, scan.scan).picture));
  });
  app.get('/api/imaging/:basin/:scan/field', async (request, reply) => {
    const { picture } = pictureFiles(desk.imaging.pictures, demandScan(desk, request.params).scan);
    const packed = await readFile(picture).catch(() => { throw refuse('file-missing', 'address.scan', 'The picture of this scan was removed; its figures are kept.'); });
    reply.type('application/octet-stream').header('cache-control', 'private, max-age=31536000, immutable').header('vary', 'accept-encoding');
    return /\bgzip\b/.test(request.headers['accept-encoding'] ?? '') ? reply.header('content-encoding', 'gzip').send(packed) : reply.send(gunzipSync(packed));
  });
  app.get('/api/imaging/:basin/:scan/points', async (request, reply) => {
    const { points } = pictureFiles(desk.imaging.pictures, demandScan(desk, request.params).scan), { from, count } = parseOrRefuse(pointsQuery, request.query, 'query');
    const file = await open(points).catch(() => { throw refuse('file-missing', 'address.scan', 'The points of this scan were removed: only the newest scans of a basin keep them.'); });
    try {
      return await reply.type('application/octet-stream').header('cache-control', 'private, max-age=31536000, immutable').send(await readPoints(file, from, count));
    } finally {
      await file.close();
    }
  });
  app.post('/api/imaging/:basin/:scan/scores', async (request): Promise<AcceptedAnswer> => {
    const scan = demandScan(desk, request.params), { by, marks } = parseOrRefuse(scoreBody, request.body, 'body');
    const outcome = await desk.greenhouse.recordScan({ do: 'score-plants', scored: { scan: scan.scan, basin: scan.basin, by, marks } }, desk.nowAt());
    if (!outcome.ok) throw new RefusedRequest(outcome.refusals);
    desk.scores.learnt();
    desk.live.push('scored', { basin: scan.basin, scan: scan.scan, by });
    return { accepted: true, sequence: desk.greenhouse.state().sequence, warnings: outcome.warnings };
  });
}

function demandScan(desk: DeskParts, params: unknown): ScanMeasured {
  const { basin, scan } = parseOrRefuse(scanParams, params, 'address');
  const found = desk.scores.book().byScan.get(scan);
  if (found === undefined || found.basin !== basin) throw refuse('reference-unknown', 'address.scan', `There is no scan ${scan} of basin ${basin}.`, scan);
  return found;
}

async function imagingAnswer(desk: DeskParts): Promise<ImagingAnswer> {
  const book = desk.scores.book(), { basins, crops } = desk.greenhouse.state();
  const scanned = Object.values(basins).flatMap(({ id, planting }): ScannedBasin[] => {
    const latest = (book.byBasin.get(id) ?? []).findLast(({ lot }) => lot === planting?.lot), card = crops[planting?.crop ?? ''];
    return latest === undefined ? [] : [{ basin: id, cropTitle: card?.title ?? latest.crop, stageTitle: card?.stages.find((stage) => stage.id === latest.stage)?.title ?? latest.stage, latest: scanSummary(book, latest), scans: sameLot(book, latest).length }];
  });
  const shown = new Set(scanned.map(({ basin }) => basin));
  return {
    place: desk.imaging.place, troubles: desk.imaging.troubles(), queue: await desk.imaging.jobs(), basins: scanned, classifier: classifierTrust(desk.scores.learnt()),
    unscanned: Object.values(basins).filter(({ id, planting }) => planting !== undefined && !shown.has(id)).map(({ id }) => id),
  };
}

function basinAnswer(desk: DeskParts, id: string): BasinScansAnswer {
  const book = desk.scores.book(), { basins, crops } = desk.greenhouse.state(), basin = basins[id];
  if (basin === undefined) throw refuse('reference-unknown', 'address.basin', `No basin ${id} is described in greenhouse.yaml.`, id);
  const { planting, type } = basin, card = crops[planting?.crop ?? ''];
  return {
    basin: id, ...(card === undefined ? {} : { cropTitle: card.title }), ...(planting === undefined ? {} : { lot: planting.lot }), dimensions: { lengthMm: type.lengthMm, widthMm: type.widthMm, rafts: type.rafts },
    scans: (book.byBasin.get(id) ?? []).toReversed().map((scan) => ({ ...scanSummary(book, scan), quality: scan.quality, file: scan.cloud.name })),
    refused: book.refused.filter((each) => each.basin === id).toReversed().slice(0, 20).map(({ scan, cloud, takenAt, refusals }) => ({ scan, file: cloud.name, refusals, ...(takenAt === undefined ? {} : { takenAt }) })),
  };
}

/** Where the rafts of a scan lay. */
function raftsOf(desk: DeskParts, { basin, plants }: ScanMeasured): ScanAnswer['rafts'] {
  const type = desk.greenhouse.state().basins[basin]?.type;
  if (type === undefined) return [];
  return basinLayoutOf(type, { stage: undefined, plants: Math.max(1, plants.raft.length) }).rafts.map(({ id, centreMm, sizeMm }) => ({ raft: Number(id), centreMm, sizeMm }));
}
