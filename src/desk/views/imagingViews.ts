import { countOf } from '../../planning/words/plainWords.ts';
import type { ScanMeasured } from '../../greenhouse/scanEvents.ts';
import { massWords } from '../../planning/imaging/massWords.ts';
import { proposeClass, type LearntScores } from '../../planning/imaging/learnScores.ts';
import { plantFeatures } from '../../planning/imaging/plantFeatures.ts';
import { scoreOf } from '../../planning/imaging/plantScores.ts';
import { sameLot, scanBefore, type ScanBook } from '../../planning/imaging/scanBook.ts';
import { placeName, scanPlants, type ScanPlant } from '../../planning/imaging/scanPlants.ts';
import { comparable, watchScan } from '../../planning/imaging/watchScan.ts';
import { excessGreen, leafHue } from '../../science/scan/picture/leafHue.ts';
import type { ClassifierTrust, PlantHistory, PlantMeasures, ScanAnswer, ScannedPlant, ScanSummary } from '../contract.ts';

const DAY_MS = 86_400_000;
const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length);
const cut = (value: number, digits = 4): number => Number(value.toPrecision(digits));

/** Summaries do not change once a scan is measured, but for the scores. */
const looked = new WeakMap<ScanMeasured, { readonly before: ScanMeasured | undefined; readonly plants: number }>();

/** How many plants of a scan are to be looked at. */
function toLookAt(book: ScanBook, scan: ScanMeasured): number {
  const before = scanBefore(book, scan), known = looked.get(scan);
  if (known !== undefined && known.before === before) return known.plants;
  const plants = new Set(watchScan(scan, before).map(({ raft, position }) => `${raft}/${position}`)).size;
  looked.set(scan, { before, plants });
  return plants;
}

/** One scan in a line. */
export function scanSummary(book: ScanBook, scan: ScanMeasured): ScanSummary {
  const { plants, empty, quality, expected } = scan;
  const freshG = plants.mass === undefined ? undefined : mean(plants.mass.freshG);
  return {
    scan: scan.scan, takenAt: scan.takenAt, lot: scan.lot, ageDays: scan.ageDays, present: plants.raft.length, positions: plants.raft.length + empty.raft.length,
    meanAreaCm2: cut(mean(plants.areaMm2) / 100), meanHeightMm: cut(mean(plants.heightP95Mm)),
    ...(plants.mass === undefined ? {} : { meanFreshG: cut(freshG!), meanLowG: cut(mean(plants.mass.lowG)), meanHighG: cut(mean(plants.mass.highG)) }),
    ...(freshG === undefined || expected === undefined ? {} : { gapToForecast: cut(freshG / expected.p50G - 1, 3) }),
    toLookAt: toLookAt(book, scan), scored: scanPlants(scan).filter(({ raft, position }) => scoreOf(book.scores, scan.scan, raft, position) !== undefined).length,
    points: quality.points, cellMm: quality.cellMm, version: quality.version,
  };
}

/** A scan with all its plants, empty positions too, in the order of the labels of its picture: raft by raft, position by position. */
export function scanView(book: ScanBook, scan: ScanMeasured, learnt: LearntScores | undefined, rafts: ScanAnswer['rafts'], hasPicture: boolean): ScanAnswer {
  const lot = sameLot(book, scan), before = scanBefore(book, scan);
  const old = before !== undefined && comparable(scan, before) ? before : undefined;
  const notes = watchScan(scan, before), features = learnt?.model === undefined ? undefined : plantFeatures(scan, old);
  const histories = historiesOf(book, lot);
  const measured = new Map(scanPlants(scan).map((plant) => [placeName(plant), plant]));
  const earlier = new Map(old === undefined ? [] : scanPlants(old).map((plant) => [placeName(plant), plant]));
  const days = old === undefined ? 1 : (Date.parse(scan.takenAt) - Date.parse(old.takenAt)) / DAY_MS;
  const plants = placesOf(scan).map(({ raft, position, xMm, yMm }): ScannedPlant => {
    const place = `${raft}/${position}`, plant = measured.get(place), seen = features?.get(place), score = scoreOf(book.scores, scan.scan, raft, position);
    return {
      raft, position, xMm, yMm, ...(plant === undefined ? {} : { measures: measuresOf(plant, earlier.get(place), days, scan) }),
      reasons: notes.filter((note) => note.raft === raft && note.position === position).map(({ reason, sentence }) => ({ reason, sentence })),
      ...(score === undefined ? {} : { score }), ...(learnt?.model === undefined || seen === undefined ? {} : { proposed: roundedProposal(proposeClass(learnt.model, seen)) }),
      history: histories.get(place) ?? [],
    };
  });
  return {
    basin: scan.basin, summary: scanSummary(book, scan), quality: scan.quality, rafts, plants, massWords: massWords(scan.mass), hasPicture, classifier: classifierTrust(learnt),
    others: lot.filter((other) => other !== scan).map((other) => ({ scan: other.scan, takenAt: other.takenAt, comparable: comparable(scan, other) })),
    ...(scan.expected === undefined ? {} : { expected: scan.expected }),
  };
}

const roundedProposal = ({ class: named, confidence }: ReturnType<typeof proposeClass>) => ({ class: named, confidence: cut(confidence, 3) });

function placesOf({ plants, empty }: ScanMeasured): { raft: number; position: number; xMm: number; yMm: number }[] {
  const places = [plants, empty].flatMap(({ raft, position, xMm, yMm }) => raft.map((_, i) => ({ raft: raft[i]!, position: position[i]!, xMm: xMm[i]!, yMm: yMm[i]! })));
  return places.sort((a, b) => a.raft - b.raft || a.position - b.position);
}

function measuresOf(plant: ScanPlant, old: ScanPlant | undefined, days: number, { expected }: ScanMeasured): PlantMeasures {
  const { areaMm2, volumeMm3, heightP95Mm, heightMaxMm, diameterMm, sharedOutline, points, colour, mass } = plant;
  const hueDeg = colour && leafHue(colour);
  return {
    areaMm2, volumeMm3, heightP95Mm, heightMaxMm, diameterMm, sharedOutline, points, ...(colour === undefined ? {} : { colour, greenness: cut(excessGreen(colour), 3) }), ...(hueDeg === undefined ? {} : { hueDeg: cut(hueDeg, 3) }), ...mass,
    ...(old === undefined || !(old.volumeMm3 > 0) || !(volumeMm3 > 0) || !(days > 0) ? {} : { growthPerDay: cut(Math.exp(Math.log(volumeMm3 / old.volumeMm3) / days) - 1, 3) }),
    ...(mass === undefined || expected === undefined ? {} : { gapToForecast: cut(mass.freshG / expected.p50G - 1, 3) }),
  };
}

/** What each position was at every scan of the lot, oldest first. */
function historiesOf(book: ScanBook, scans: readonly ScanMeasured[]): Map<string, PlantHistory[]> {
  const histories = new Map<string, PlantHistory[]>();
  for (const scan of scans) {
    for (const plant of scanPlants(scan)) {
      const { areaMm2, volumeMm3, heightP95Mm, mass } = plant, score = scoreOf(book.scores, scan.scan, plant.raft, plant.position);
      const line: PlantHistory = { scan: scan.scan, takenAt: scan.takenAt, areaMm2, volumeMm3, heightP95Mm, ...mass, ...(score === undefined ? {} : { score: score.class }) };
      histories.set(placeName(plant), [...histories.get(placeName(plant)) ?? [], line]);
    }
  }
  return histories;
}

/** How far proposed classes can be trusted, in figures and in a sentence. */
export function classifierTrust(learnt: LearntScores | undefined): ClassifierTrust {
  const scored = learnt?.scored ?? 0;
  if (learnt?.trust === undefined) return { ready: false, scored, sentence: `${countOf(scored, 'plant')} ${scored === 1 ? 'is' : 'are'} scored. Classes are proposed once 30 plants are scored in at least two classes of five or more each.` };
  const { trust, classes } = learnt, percent = (share: number) => `${Math.round(100 * share)} %`;
  return {
    ready: true, scored, classes, rightShare: cut(trust.rightShare, 3), commonestShare: cut(trust.commonestShare, 3),
    sentence: `Of ${trust.examples} scored plants that it had not learnt from, the proposal was right for ${percent(trust.rightShare)}; always naming the commonest class would have been right for ${percent(trust.commonestShare)}. It proposes; a grower decides.`,
  };
}
