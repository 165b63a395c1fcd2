import { basinFullL } from '../../greenhouse/basinGeometry.ts';
import { basinLayoutOf } from '../../greenhouse/basinLayoutOf.ts';
import type { GreenhouseEvent } from '../../greenhouse/events.ts';
import type { ExpectedMass, ScanMeasured } from '../../greenhouse/scanEvents.ts';
import type { BasinState, GreenhouseState } from '../../greenhouse/state.ts';
import { earlierPlants, type ScanOccasion } from '../../planning/imaging/composeScan.ts';
import { weighedPlants } from '../../planning/imaging/weighedPlants.ts';
import type { MorningPlan } from '../../planning/morningPlan.ts';
import { accepted, refused, type Outcome, type Refusal } from '../../science/refusal.ts';
import type { QueuedCloud } from '../../store/scan/scanQueue.ts';
import { cloudPath, type CloudOccasion } from '../../store/scan/readCloudName.ts';
import { dateIn } from '../planning/restoreApproved.ts';
import type { ScanTask } from './scanWorker.ts';

/** What the greenhouse knows when a cloud is worked on. */
export interface ScanGround {
  readonly state: GreenhouseState;
  readonly events: readonly GreenhouseEvent[];
  readonly plan: MorningPlan | undefined;
  readonly nowAt: string;
}

export interface PreparedScan { readonly occasion: ScanOccasion; readonly task: Omit<ScanTask, 'cloud'> & { readonly cloud: Omit<ScanTask['cloud'], 'path' | 'pictures'> } }

const DAY_MS = 86_400_000;
/** Clocks of stations differ a little. */
const AHEAD_MS = 600_000;

export const scanName = (sha256: string): string => sha256.slice(0, 16);

/** Brings together what the measuring of a cloud needs. Refused where the cloud does not fit what the greenhouse knows of the basin. */
export function prepareScan(cloud: QueuedCloud, { basin: id, takenAt }: CloudOccasion, ground: ScanGround): Outcome<PreparedScan> {
  const { state, events, plan, nowAt } = ground;
  const basin = state.basins[id];
  const wrong = checkOccasion(cloud, id, takenAt, basin, state, nowAt);
  if (wrong !== undefined) return refused([wrong]);
  const { planting, filled, type, scans } = basin!;
  const card = state.crops[planting!.crop]!;
  const scan = scanName(cloud.sha256), ageDays = Math.round((Date.parse(takenAt) - Date.parse(`${planting!.sown}T12:00:00Z`)) / DAY_MS);
  const layout = basinLayoutOf(type, { stage: card.stages.find(({ id: stage }) => stage === planting!.stage), plants: planting!.plants, ...(filled === undefined ? {} : { fullShare: Math.min(1, filled.volumeL / basinFullL(type)) }) });
  const before = scans.findLast((note) => note.lot === planting!.lot && note.takenAt < takenAt && note.rafts === layout.rafts.length && note.perRaft === layout.rafts[0]!.positions.length);
  const earlier = before === undefined ? [] : earlierPlants(bodyOf(events, before.sequence));
  const expected = expectedOf(plan, planting!.lot, dateIn(takenAt, state.file!.location.timeZone));
  return accepted({
    occasion: {
      scan, basin: id, takenAt, planting: planting!, ageDays, cloud: { sha256: cloud.sha256, name: cloud.name, bytes: cloud.bytes },
      ...(before === undefined ? {} : { previousScan: before.scan }), ...(expected === undefined ? {} : { expected }),
    },
    task: {
      cloud: { scan, layout, earlier },
      mass: { crop: card.id, ageDays, weighed: weighedPlants(events), freshGPerCanopyL: card.handling.freshGPerCanopyL, freshGPerCanopyLSpread: card.handling.freshGPerCanopyLSpread },
    },
  });
}

function checkOccasion({ name }: QueuedCloud, id: string, takenAt: string, basin: BasinState | undefined, state: GreenhouseState, nowAt: string): Refusal | undefined {
  const refusal = (code: Refusal['code'], value: unknown, message: string): Refusal => ({ code, path: cloudPath(name), value, message, severity: 'error' });
  if (basin === undefined) return refusal('reference-unknown', id, `No basin ${id} is described in greenhouse.yaml.`);
  if (basin.planting === undefined) return refusal('state-conflict', id, `Nothing grows in basin ${id} as far as the journal knows: place its lot first.`);
  if (state.crops[basin.planting.crop] === undefined) return refusal('reference-unknown', basin.planting.crop, `There is no crop card ${basin.planting.crop}: without it nobody knows how the plants of basin ${id} stand.`);
  if (takenAt.slice(0, 10) < basin.planting.placed) return refusal('inconsistent', takenAt, `The cloud was taken before lot ${basin.planting.lot} came into basin ${id} on ${basin.planting.placed}.`);
  if (Date.parse(takenAt) > Date.parse(nowAt) + AHEAD_MS) return refusal('value-out-of-range', takenAt, 'The cloud claims to be taken in the future; check the clock of the station. Times are UTC.');
  return undefined;
}

export function bodyOf(events: readonly GreenhouseEvent[], sequence: number): ScanMeasured {
  const event = events[sequence - 1];
  if (event?.kind !== 'scan-measured') throw new Error(`entry ${sequence} of the journal is no scan`);
  return event.body;
}

/** What the newest plan thought of the lot's mean plant on a day. */
function expectedOf(plan: MorningPlan | undefined, lot: string, date: string): ExpectedMass | undefined {
  const day = plan?.lots.find((each) => each.lot === lot)?.days.find((each) => each.date === date);
  return day === undefined ? undefined : { p05G: round(day.freshG.p05), p50G: round(day.freshG.p50), p95G: round(day.freshG.p95) };
}

const round = (value: number): number => Number(value.toPrecision(4));
