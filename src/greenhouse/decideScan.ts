import { accepted, refused, type Outcome, type Refusal } from '../science/refusal.ts';
import type { GreenhouseEventDraft } from './events.ts';
import type { Role } from './schema/greenhouseFile.ts';
import type { PlantMark, PlantsScored, ScanMeasured, ScanRefused } from './scanEvents.ts';
import type { GreenhouseState } from './state.ts';

/** What becomes of a cloud, and what a grower says of plants. */
export type ScanCommand =
  | { readonly do: 'record-scan'; readonly measured: ScanMeasured }
  /** `arrivedAt`: the same cloud may be given, and refused, again. */
  | { readonly do: 'refuse-scan'; readonly refusal: ScanRefused; readonly arrivedAt: string }
  | { readonly do: 'score-plants'; readonly scored: PlantsScored };

const SCORES: readonly Role[] = ['grower'];
export const mayScore = (role: Role): boolean => SCORES.includes(role);

/** The events that a command about scans means, or every reason why it cannot be. `nowAt`: UTC instant of the command. */
export function decideScan(state: GreenhouseState, command: ScanCommand, nowAt: string): Outcome<GreenhouseEventDraft[]> {
  switch (command.do) {
    case 'record-scan': return accepted([{ kind: 'scan-measured', happenedAt: command.measured.takenAt, recordedBy: 'imaging', identity: `scan:${command.measured.cloud.sha256}`, body: command.measured }]);
    case 'refuse-scan': return accepted([{ kind: 'scan-refused', happenedAt: command.refusal.takenAt ?? nowAt, recordedBy: 'imaging', identity: `scan-refused:${command.refusal.cloud.sha256}@${command.arrivedAt}`, body: command.refusal }]);
    case 'score-plants': return scorePlants(state, command.scored, nowAt);
  }
}

function scorePlants(state: GreenhouseState, scored: PlantsScored, nowAt: string): Outcome<GreenhouseEventDraft[]> {
  const wrong = checkScores(state, scored);
  return wrong.length > 0 ? refused(wrong) : accepted([{ kind: 'plants-scored', happenedAt: nowAt, recordedBy: scored.by, body: scored }]);
}

function checkScores(state: GreenhouseState, { scan, basin, by, marks }: PlantsScored): Refusal[] {
  const wrong: Refusal[] = [];
  const person = state.file?.people.find(({ id }) => id === by);
  if (person === undefined) wrong.push({ code: 'reference-unknown', severity: 'error', path: 'by', value: by, message: `greenhouse.yaml names no person '${by}'.` });
  else if (!mayScore(person.role)) wrong.push({ code: 'not-permitted', severity: 'error', path: 'by', value: by, limit: SCORES.join(', '), message: `${person.name} has the role ${person.role}; plants are scored by a grower.` });
  const note = state.basins[basin]?.scans.find((each) => each.scan === scan);
  if (note === undefined) return [...wrong, { code: 'reference-unknown', severity: 'error', path: 'scan', value: scan, message: `There is no scan ${scan} of basin ${basin}.` }];
  return [...wrong, ...marks.flatMap((mark, i) => checkMark(mark, `marks[${i}]`, note.rafts, note.perRaft))];
}

function checkMark({ raft, position, class: named, words }: PlantMark, path: string, rafts: number, perRaft: number): Refusal[] {
  const wrong: Refusal[] = [];
  if (!(raft >= 1 && raft <= rafts)) wrong.push({ code: 'reference-unknown', severity: 'error', path: `${path}.raft`, value: raft, limit: [1, rafts], message: `The scan has rafts 1 to ${rafts}.` });
  if (position !== undefined && !(position >= 1 && position <= perRaft)) wrong.push({ code: 'reference-unknown', severity: 'error', path: `${path}.position`, value: position, limit: [1, perRaft], message: `Its rafts have positions 1 to ${perRaft}.` });
  if (named === 'own' && words === undefined) wrong.push({ code: 'value-missing', severity: 'error', path: `${path}.words`, message: 'A score in own words needs the words.' });
  return wrong;
}
