import { canonicalText } from './canonicalText.ts';
import { foldEvents, orderKey } from './evolve.ts';
import type { EventBodies, EventKind, GreenhouseEvent, GreenhouseEventDraft } from './events.ts';
import type { GreenhouseFolder } from './files/greenhouseFolder.ts';

type RowKind = 'order-placed' | 'lot-sown' | 'lot-placed' | 'analysis-recorded' | 'sample-taken';

/** A fact that a file states: its kind, the key that tells it from others of its kind, when it happened. */
interface Fact<K extends EventKind = EventKind> { readonly kind: K; readonly key: string; readonly happenedAt: string; readonly body: EventBodies[K] }

/**
 * What a folder says that the journal does not hold yet, as drafts in an order that makes sense. A description that differs is
 * a new description; a row that differs corrects the event that stated it; an order or lot that is gone from its table is
 * withdrawn. The same folder a second time gives nothing. `nowAt`: UTC instant for facts that carry no time of their own.
 */
export function importFolder(folder: GreenhouseFolder, events: readonly GreenhouseEvent[], nowAt: string): GreenhouseEventDraft[] {
  const stated = statedFacts(events);
  const drafts: GreenhouseEventDraft[] = [];
  const add = (fact: Fact) => {
    const before = stated.get(`${fact.kind}:${fact.key}`);
    if (before !== undefined && !before.gone && canonicalText(before.body) === canonicalText(fact.body)) return;
    const corrects = before !== undefined && !before.gone && isRow(fact.kind) ? before.id : undefined;
    drafts.push(draftOf(fact, (before?.times ?? 0) + 1, corrects));
  };
  for (const fact of factsOf(folder, nowAt)) add(fact);
  return [...drafts, ...withdrawals(folder, events, stated, nowAt)];
}

const isRow = (kind: EventKind): kind is RowKind => kind === 'order-placed' || kind === 'lot-sown' || kind === 'lot-placed' || kind === 'analysis-recorded' || kind === 'sample-taken';

const draftOf = (fact: Fact, times: number, corrects: string | undefined): GreenhouseEventDraft => ({
  kind: fact.kind, happenedAt: fact.happenedAt, recordedBy: 'import', body: fact.body, identity: `${fact.kind}:${fact.key}#${times}`,
  ...(corrects === undefined ? {} : { corrects }),
} as GreenhouseEventDraft);

function factsOf(folder: GreenhouseFolder, nowAt: string): Fact[] {
  const rows = <K extends RowKind, R>(kind: K, list: readonly R[], happenedAt: (row: R) => string, body: (row: R) => EventBodies[K]): Fact[] =>
    list.map((row) => ({ kind, key: keyOf(kind, body(row)), happenedAt: happenedAt(row), body: body(row) }));
  return [
    { kind: 'greenhouse-described', key: '', happenedAt: nowAt, body: { file: folder.file } },
    ...folder.crops.map((card): Fact => ({ kind: 'crop-described', key: card.id, happenedAt: nowAt, body: { card } })),
    { kind: 'products-described', key: '', happenedAt: nowAt, body: { file: folder.products } },
    { kind: 'weather-given', key: '', happenedAt: nowAt, body: folder.weather },
    ...rows('order-placed', folder.orders, () => nowAt, (line) => ({ line })),
    ...rows('lot-sown', folder.sowings ?? [], (row) => `${row.sown}T00:00:00Z`, (row) => ({ row })),
    ...rows('lot-placed', folder.lots, (row) => `${row.placed}T00:00:00Z`, (row) => ({ row })),
    ...rows('analysis-recorded', folder.analyses, (row) => utc(row.at), (row) => ({ row })),
    ...rows('sample-taken', folder.samples, (row) => `${row.date}T12:00:00Z`, (row) => ({ row })),
  ];
}

/** The key that stays the same when a row is corrected. */
function keyOf<K extends EventKind>(kind: K, body: EventBodies[K]): string {
  switch (kind) {
    case 'order-placed': return orderKey((body as EventBodies['order-placed']).line);
    case 'lot-sown': return (body as EventBodies['lot-sown']).row.lot;
    case 'lot-placed': { const { row } = body as EventBodies['lot-placed']; return `${row.lot}@${row.basin}`; }
    case 'analysis-recorded': return (body as EventBodies['analysis-recorded']).row.analysis;
    case 'sample-taken': { const { row } = body as EventBodies['sample-taken']; return `${row.lot}@${row.basin ?? ''}:${row.date}:${row.plant}`; }
    case 'crop-described': return (body as EventBodies['crop-described']).card.id;
    default: return '';
  }
}

interface Stated { readonly id: string; readonly body: unknown; readonly times: number; readonly gone: boolean }

/** The last statement of each fact in the journal, with how often it was stated and whether it was withdrawn since. */
function statedFacts(events: readonly GreenhouseEvent[]): Map<string, Stated> {
  const stated = new Map<string, Stated>();
  for (const event of events) {
    if (event.kind === 'order-withdrawn') markGone(stated, `order-placed:${orderKey(event.body)}`);
    else if (event.kind === 'lot-cleared') markGone(stated, `lot-placed:${event.body.lot}@${event.body.basin}`);
    else if (event.kind === 'sowing-withdrawn') markGone(stated, `lot-sown:${event.body.lot}`);
    else if (event.recordedBy === 'import') {
      const key = `${event.kind}:${keyOf(event.kind, event.body)}`;
      stated.set(key, { id: event.id, body: event.body, times: (stated.get(key)?.times ?? 0) + 1, gone: false });
    }
  }
  return stated;
}

function markGone(stated: Map<string, Stated>, key: string): void {
  const before = stated.get(key);
  if (before !== undefined) stated.set(key, { ...before, gone: true });
}

/** Orders, lots and sowings that the files named once and name no more. A lot that has left its basin or its trays already needs no word. */
function withdrawals(folder: GreenhouseFolder, events: readonly GreenhouseEvent[], stated: Map<string, Stated>, nowAt: string): GreenhouseEventDraft[] {
  const orders = new Set(folder.orders.map(orderKey));
  const lots = new Set(folder.lots.map((row) => `${row.lot}@${row.basin}`));
  const sown = folder.sowings === undefined ? undefined : new Set(folder.sowings.map(({ lot }) => lot));
  const { basins, trays } = foldEvents(events);
  return [...stated].flatMap(([key, { body, times, gone }]): GreenhouseEventDraft[] => {
    const shared = { happenedAt: nowAt, recordedBy: 'import', identity: `gone:${key}#${times}` };
    if (gone) return [];
    if (key.startsWith('order-placed:')) {
      const { order, line } = (body as EventBodies['order-placed']).line;
      return orders.has(orderKey({ order, line })) ? [] : [{ kind: 'order-withdrawn', body: { order, line }, ...shared }];
    }
    if (key.startsWith('lot-sown:')) {
      const { lot } = (body as EventBodies['lot-sown']).row;
      return sown === undefined || sown.has(lot) || trays[lot] === undefined ? [] : [{ kind: 'sowing-withdrawn', body: { lot, reason: 'no longer listed in sowings.csv' }, ...shared }];
    }
    if (!key.startsWith('lot-placed:')) return [];
    const { lot, basin } = (body as EventBodies['lot-placed']).row;
    if (lots.has(`${lot}@${basin}`) || basins[basin]?.planting?.lot !== lot) return [];
    return [{ kind: 'lot-cleared', body: { lot, basin, reason: 'no longer listed in lots.csv' }, ...shared }];
  });
}

const utc = (instant: string): string => new Date(instant).toISOString();
