import { basinAreaM2, basinFullL, basinLeastL } from '../../../greenhouse/basinGeometry.ts';
import type { CropCard } from '../../../greenhouse/schema/cropCard.ts';
import { addCompositions, entriesOf, scaleComposition, type Component, type Composition } from '../../../science/chemistry/composition.ts';
import { expectedLossL, type BasinView } from '../../needs/basinView.ts';
import { componentBands, uptakeComposition } from '../feedLimits.ts';

/** Water that basins of one crop will be filled with in the coming days, all together. */
export interface ExpectedFeed {
  readonly crop: string;
  readonly window: FeedWindow;
  readonly litres: number;
  /** What the added water must bring at least and may bring at most, mmol per litre added. */
  readonly lowMmolPerL: Composition;
  readonly highMmolPerL: Composition;
}

/** Tomorrow and the day after, or the days after those: a tank that waits for its test serves only the later ones. */
export type FeedWindow = 'near' | 'far';

/** Feeds of both windows as one for each crop: where every tank serves both or neither, they need not be told apart. */
export function mergeWindows(feeds: readonly ExpectedFeed[]): ExpectedFeed[] {
  const byCrop = new Map<string, ExpectedFeed>();
  for (const feed of feeds) {
    const same = byCrop.get(feed.crop);
    const litres = feed.litres + (same?.litres ?? 0);
    const mean = (table: 'lowMmolPerL' | 'highMmolPerL') => scaleComposition(addCompositions(...[feed, ...(same === undefined ? [] : [same])].map((is) => scaleComposition(is[table], is.litres))), 1 / litres);
    byCrop.set(feed.crop, { crop: feed.crop, window: 'near', litres, lowMmolPerL: mean('lowMmolPerL'), highMmolPerL: mean('highMmolPerL') });
  }
  return [...byCrop.values()];
}

/** Days looked ahead: as long as a feed lasts. */
export const AHEAD_DAYS = 7;
const NEAR_DAYS = 2;
const DAY_MS = 86_400_000;

/**
 * The fillings of the days after today: planted basins whose level reaches its least, topped up to full with what brings them
 * back into their bands, and the basins that plants move on into, filled from empty. `servedToday`, fed or emptied, are left out:
 * a feed lasts as long as is looked ahead.
 */
export function expectedFeeds(views: Iterable<BasinView>, servedToday: ReadonlySet<string>, atMs: number): ExpectedFeed[] {
  const sums = new Map<string, Sum>();
  for (const view of views) {
    const { card, basin } = view;
    if (card === undefined || basin.planting === undefined) continue;
    if (!servedToday.has(basin.id)) addTopUp(sums, view, card, atMs);
    addMove(sums, view, card, atMs);
  }
  return [...sums.values()].filter(({ litres }) => litres > 1).sort((a, b) => (a.key < b.key ? -1 : 1)).map(({ crop, window, litres, low, high }) => ({
    crop, window, litres, lowMmolPerL: scaleComposition(low, 1 / litres), highMmolPerL: scaleComposition(high, 1 / litres),
  }));
}

interface Sum { readonly key: string; readonly crop: string; readonly window: FeedWindow; litres: number; low: Composition; high: Composition }

function add(sums: Map<string, Sum>, card: CropCard, dayAhead: number, litres: number, low: Composition, high: Composition): void {
  const window: FeedWindow = dayAhead <= NEAR_DAYS ? 'near' : 'far';
  const key = `${card.id} ${window}`;
  const sum = sums.get(key) ?? { key, crop: card.id, window, litres: 0, low: {}, high: {} };
  sums.set(key, { ...sum, litres: sum.litres + litres, low: addCompositions(sum.low, low), high: addCompositions(sum.high, high) });
}

/** On the day on whose end the basin would hold less than it may. */
function addTopUp(sums: Map<string, Sum>, view: BasinView, card: CropCard, atMs: number): void {
  if (!view.water.known) return;
  const { volumeL, mmolPerL, uptakeFactor } = view.water.solution;
  const fullL = basinFullL(view.basin.type);
  for (let ahead = 1; ahead <= AHEAD_DAYS; ahead += 1) {
    if (volumeL - expectedLossL(view, atMs, atMs + (ahead + 1) * DAY_MS) >= basinLeastL(view.basin.type)) continue;
    const lostL = expectedLossL(view, atMs, atMs + ahead * DAY_MS);
    const left = addCompositions(scaleComposition(mmolPerL, volumeL), scaleComposition(uptakeComposition(card), -lostL * uptakeFactor));
    const litres = fullL - Math.max(0, volumeL - lostL);
    if (litres > 0) add(sums, card, ahead, litres, missing(card, 0, fullL, left), missing(card, 1, fullL, left));
    return;
  }
}

/** Plants whose stage ends within the days looked ahead move into as many empty basins as the next density asks for. */
function addMove(sums: Map<string, Sum>, { basin }: BasinView, card: CropCard, atMs: number): void {
  const { stage, placed, plants } = basin.planting!;
  const index = card.stages.findIndex(({ id }) => id === stage);
  const [now, next] = [card.stages[index], card.stages[index + 1]];
  if (now?.days === undefined || next === undefined) return;
  const ahead = Math.ceil((Date.parse(`${placed}T00:00:00Z`) + now.days * DAY_MS - atMs) / DAY_MS);
  if (ahead < 1 || ahead > AHEAD_DAYS) return;
  const litres = Math.ceil(plants / (next.plantsPerM2 * basinAreaM2(basin.type))) * basinFullL(basin.type);
  add(sums, card, ahead, litres, missing(card, 0, litres, {}), missing(card, 1, litres, {}));
}

/** mmol that bring a basin to the low (0) or high (1) edge of its bands; none where there is enough already. */
function missing(card: CropCard, edge: 0 | 1, fullL: number, left: Composition): Composition {
  const bands = Object.entries(componentBands(card)) as [Component, readonly [number, number]][];
  return Object.fromEntries(bands.map(([name, band]) => [name, Math.max(0, band[edge] * fullL - (left[name] ?? 0))]));
}

/** Names of the components that any of the feeds has a limit for. */
export const limitedComponents = (feeds: readonly ExpectedFeed[]): Component[] => [...new Set(feeds.flatMap(({ highMmolPerL }) => entriesOf(highMmolPerL).map(([name]) => name)))];
