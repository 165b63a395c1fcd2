import type { GreenhouseEvent, StopPin } from '../../greenhouse/events.ts';
import type { PlantMark } from '../../greenhouse/scanEvents.ts';
import type { JournalLine } from '../contract.ts';

/** One event as a person reads it. */
export function journalLine(event: GreenhouseEvent): JournalLine {
  const { sequence, id, kind, happenedAt, recordedAt, recordedBy, hash, corrects } = event;
  return { sequence, id, kind, happenedAt, recordedAt, recordedBy, hash, sentence: sentenceOf(event), ...(corrects ? { corrects } : {}) };
}

function sentenceOf(event: GreenhouseEvent): string {
  switch (event.kind) {
    case 'greenhouse-described': return `${event.body.file.name} was described: ${event.body.file.bays.length} bays, ${event.body.file.stations.length} stations, ${event.body.file.vehicles.length} vehicles.`;
    case 'crop-described': return `The crop card of ${event.body.card.title} was read.`;
    case 'products-described': return `${event.body.file.products.length} fertilisers on the shelf were described.`;
    case 'weather-given': return `Weather was read from ${event.body.fileName}.`;
    case 'order-placed': return `${event.body.line.customer} ordered ${event.body.line.units} of ${event.body.line.crop} for ${event.body.line.due} (order ${event.body.line.order}, line ${event.body.line.line}).`;
    case 'order-withdrawn': return `Order ${event.body.order}, line ${event.body.line} was withdrawn.`;
    case 'lot-sown': return `${event.body.row.seeds} seeds of lot ${event.body.row.lot} (${event.body.row.crop}) were sown for ${event.body.row.plants} plants.`;
    case 'sowing-withdrawn': return `Lot ${event.body.lot} left its trays without being planted: ${event.body.reason}.`;
    case 'lot-placed': return `${event.body.row.plants} plants of lot ${event.body.row.lot} (${event.body.row.crop}) stand in basin ${event.body.row.basin}, stage ${event.body.row.stage}.`;
    case 'lot-cleared': return `Lot ${event.body.lot} left basin ${event.body.basin}: ${event.body.reason}.`;
    case 'analysis-recorded': return `Water of ${placeWords(event.body.row.place)} was analysed (${event.body.row.analysis}).`;
    case 'sample-taken': return `Plant ${event.body.row.plant} of lot ${event.body.row.lot} weighed ${event.body.row.freshG} g fresh.`;
    case 'plan-approved': return `${event.body.plan.approvedBy} approved plan ${event.body.plan.planId} with ${event.body.plan.visits.length} visits${pinWords(event.body.plan.pins)}.`;
    case 'stop-done': return `${event.body.by} marked stop ${event.body.stop + 1} of visit ${event.body.visit} done.`;
    case 'stop-corrected': return `${event.body.by} corrected stop ${event.body.stop + 1} of visit ${event.body.visit}: ${event.body.now === 'open' ? 'not done yet after all' : `${event.body.now} after all`}, because ${withoutStop(event.body.reason)}.`;
    case 'stop-failed': return `${event.body.by} marked stop ${event.body.stop + 1} of visit ${event.body.visit} failed: ${withoutStop(event.body.reason)}.`;
    case 'scan-measured': return `Basin ${event.body.basin} was scanned: ${event.body.plants.raft.length} plants on ${event.body.plants.raft.length + event.body.empty.raft.length} positions (scan ${event.body.scan}).`;
    case 'scan-refused': return `The cloud ${event.body.cloud.name} was not taken: ${event.body.refusals[0]?.message ?? 'no reason given'}`;
    case 'plants-scored': return `${event.body.by} scored ${event.body.marks.length === 1 ? markWords(event.body.marks[0]!) : `${event.body.marks.length} plants or rafts`} of basin ${event.body.basin} (scan ${event.body.scan}).`;
    case 'action-decided': return `${event.body.by} decided on lot ${event.body.lot}: ${event.body.title}, because ${withoutStop(event.body.why)}.`;
    default: return unknownKind(event);
  }
}

/** What people wrote, as a sentence goes on to its own full stop. */
const withoutStop = (words: string): string => words.replace(/[.\s]+$/, '');

/** Stops that people moved before they approved. */
const pinWords = (pins: readonly StopPin[] = []): string => pins.map((pin) => `; ${pin.by} wanted stop ${pin.stop + 1} of visit ${pin.visit} at ${pin.station} from ${pin.startAt.slice(11, 16)} UTC`).join('');

const markWords = (mark: PlantMark): string => `raft ${mark.raft}${mark.position === undefined ? '' : `, position ${mark.position}`} ${mark.words ?? mark.class}`;

/** A journal written by a newer program may hold kinds that this one does not know. */
const unknownKind = (event: never): string => `An event of a kind that this program does not know: ${(event as GreenhouseEvent).kind}.`;

const placeWords = (place: string): string => place.replace(':', ' ');

/** Whether an event is about one basin. */
export function concernsBasin(event: GreenhouseEvent, basin: string, visits: ReadonlySet<string>): boolean {
  switch (event.kind) {
    case 'lot-placed': return event.body.row.basin === basin;
    case 'lot-cleared': return event.body.basin === basin;
    case 'analysis-recorded': return event.body.row.place === `basin:${basin}`;
    case 'sample-taken': return event.body.row.basin === basin;
    case 'scan-measured': case 'scan-refused': case 'plants-scored': return event.body.basin === basin;
    case 'stop-done': case 'stop-failed': case 'stop-corrected': return visits.has(event.body.visit);
    default: return false;
  }
}
