import type { ScanCommand } from '../../greenhouse/decideScan.ts';
import { composeScan } from '../../planning/imaging/composeScan.ts';
import type { MorningPlan } from '../../planning/morningPlan.ts';
import type { Refusal } from '../../science/refusal.ts';
import type { CloudPlace, ListedCloud } from '../../store/scan/cloudPlace.ts';
import { hashFile } from '../../store/scan/hashFile.ts';
import { PlaceFault } from '../../store/scan/placeFault.ts';
import { cloudPath, readCloudName } from '../../store/scan/readCloudName.ts';
import type { QueuedCloud, ScanQueue } from '../../store/scan/scanQueue.ts';
import type { ScanJob } from '../contract.ts';
import type { LiveFeed } from '../http/liveFeed.ts';
import type { OpenGreenhouse } from '../openGreenhouse.ts';
import { openPlanThread, type PlanThread } from '../planning/planThread.ts';
import { dropOldPoints } from './dropOldPoints.ts';
import { prepareScan, scanName, type PreparedScan, type ScanGround } from './prepareScan.ts';
import type { ScanTask, ScanWork } from './scanWorker.ts';

export interface ImagingParts {
  readonly greenhouse: Pick<OpenGreenhouse, 'state' | 'recordScan' | 'allEvents'>;
  readonly queue: ScanQueue;
  /** Where clouds are looked for. */
  readonly places: readonly CloudPlace[];
  /** Folder in which pictures of scans are kept. */
  readonly pictures: string;
  readonly live: LiveFeed;
  readonly newestPlan: () => MorningPlan | undefined;
  /** Called once the queue is empty after scans were recorded. */
  readonly onScans: (basins: readonly string[]) => void;
  readonly nowAt: () => string;
  readonly report: (error: unknown) => void;
}

/** The work on clouds that arrive. */
export interface Imaging {
  /** In words. */
  readonly place: string;
  /** Places that cannot be used now, each with the reason. */
  readonly troubles: () => readonly Refusal[];
  readonly pictures: string;
  /** What waits or is worked on, and what ended within a day. */
  readonly jobs: () => Promise<readonly ScanJob[]>;
  /** Looks for new clouds and works until none waits. One look at a time: a second call joins the first. */
  readonly look: () => Promise<void>;
  readonly close: () => Promise<void>;
}

const HEARTBEAT_MS = 4000;
const SHOWN_MS = 86_400_000;
/** A cloud on which work broke off so often is given up. */
const MOST_ATTEMPTS = 3;
const WORDS = { fault: 'imaging', brokeOff: 'The work on a cloud broke off unexpectedly; it is tried again.', mistake: 'The work on a cloud made a mistake; it is tried again. The log of the desk says more.' };

/** Clouds are taken from their place into the queue and measured one after another in a thread; what comes out goes to the journal. */
export function keepImaging(parts: ImagingParts): Imaging {
  const { greenhouse, queue, places, live, nowAt } = parts;
  const owner = `${process.pid}-${Date.now().toString(36)}`;
  let thread: PlanThread<ScanTask, ScanWork> | undefined;
  let running: Promise<void> | undefined;
  let closed = false;
  const troubles = new Map<CloudPlace, Refusal>(), known = new Set<string>();

  return {
    place: places.map(({ words }) => words).join(' and '), troubles: () => [...troubles.values()], pictures: parts.pictures,
    jobs: async () => (await queue.list(new Date(Date.parse(nowAt()) - SHOWN_MS).toISOString())).map(jobOf),
    look: () => (running ??= work().catch(parts.report).finally(() => { running = undefined; })),
    close: async () => {
      closed = true;
      for (const place of places) place.close();
      await thread?.close();
      await running;
    },
  };

  async function work(): Promise<void> {
    for (const place of places) await lookInto(place);
    const basins: string[] = [], later: string[] = [];
    for (let cloud = await take(later); cloud !== undefined; cloud = await take(later)) {
      const { sha256, name } = cloud;
      const basin = await workOn(cloud).catch((error: unknown) => { later.push(sha256); return note(placeOf(name), error); });
      if (basin !== undefined && !basins.includes(basin)) basins.push(basin);
    }
    if (basins.length > 0) parts.onScans(basins);
  }

  /** Takes what is new into the queue. A place that cannot be used now is said to be so and looked into the next time. */
  async function lookInto(place: CloudPlace): Promise<void> {
    const files = await place.list().catch((error: unknown) => note(place, error));
    if (files === undefined) return;
    troubles.delete(place);
    for (const file of files) if (!closed && troubles.get(place)?.code !== 'storage-unreachable') await arriveOnce(place, file).catch((error: unknown) => note(place, error));
  }

  /** What keeps a place from being used; anything else is thrown again. */
  function note(place: CloudPlace | undefined, error: unknown): undefined {
    if (place === undefined || !(error instanceof PlaceFault)) throw error;
    if (!closed) troubles.set(place, error.refusal);
  }

  async function arriveOnce(place: CloudPlace, file: ListedCloud): Promise<void> {
    const print = JSON.stringify(file);
    if (!known.has(print) && !await queue.knowsFile(file)) await arrive(place, file);
    known.add(print);
  }

  async function take(except: readonly string[]): Promise<QueuedCloud | undefined> {
    return closed ? undefined : queue.take(owner, except);
  }

  function placeOf(name: string): CloudPlace | undefined {
    return places.find((place) => place.owns(name));
  }

  async function arrive(place: CloudPlace, { name, bytes, modifiedMs }: ListedCloud): Promise<void> {
    const path = await place.fetch(name);
    if (path === undefined) return;
    const sha256 = await hashFile(path);
    const occasion = readCloudName(name, await place.beside(name));
    const cloud = { sha256, name, bytes, modifiedMs, arrivedAt: nowAt(), ...(occasion.ok ? occasion.value : {}) };
    if (await queue.arrive(cloud) === 'known') return place.drop(name);
    await place.rest(name);
    await tell({ ...cloud, state: 'queued', attempt: 0, share: 0 });
  }

  /** Returns the basin of a scan that was recorded. */
  async function workOn(cloud: QueuedCloud): Promise<string | undefined> {
    const { state } = greenhouse, scan = scanName(cloud.sha256);
    if (Object.values(state().basins).some(({ scans }) => scans.some((note) => note.scan === scan))) return end(cloud);
    if (cloud.attempt > MOST_ATTEMPTS) return refuse(cloud, [{ code: 'scan-broke-off', path: cloudPath(cloud.name), value: cloud.attempt - 1, message: `Measuring ${cloud.name} broke off ${MOST_ATTEMPTS} times; the log of the desk says more.`, severity: 'error' }]);
    const beat = setInterval(() => { queue.beat(cloud.sha256, owner, shown.share, shown.step).catch(parts.report); }, HEARTBEAT_MS);
    const shown = { share: 0, step: 'reading' };
    const progress = (step: string, share: number): void => {
      Object.assign(shown, { share, step });
      tell({ ...cloud, state: 'running', share, step }).catch(parts.report);
    };
    try {
      return await measure(cloud, progress);
    } catch (error) {
      await queue.putBack(cloud.sha256, owner, closed || error instanceof PlaceFault);
      throw error;
    } finally {
      clearInterval(beat);
    }
  }

  async function measure(cloud: QueuedCloud, progress: (step: string, share: number) => void): Promise<string | undefined> {
    const place = placeOf(cloud.name), gone: Refusal = { code: 'file-missing', path: cloudPath(cloud.name), message: `${cloud.name} is no longer there; give it again.`, severity: 'error' };
    if (place === undefined) return refuse(cloud, [gone]);
    const occasion = readCloudName(cloud.name, await place.beside(cloud.name));
    if (!occasion.ok) return refuse(cloud, occasion.refusals);
    const ground: ScanGround = { state: greenhouse.state(), events: greenhouse.allEvents(), plan: parts.newestPlan(), nowAt: nowAt() };
    const prepared = prepareScan(cloud, occasion.value, ground);
    if (!prepared.ok) return refuse(cloud, prepared.refusals);
    const path = await place.fetch(cloud.name);
    if (path === undefined) return refuse(cloud, [gone]);
    if (await hashFile(path).catch(() => '') !== cloud.sha256) return refuse(cloud, [{ code: 'inconsistent', path: cloudPath(cloud.name), message: `${cloud.name} was changed while it waited; what it is now comes into the queue by itself.`, severity: 'error' }]);
    progress('reading', 0.02);
    return measureFile(cloud, prepared.value, path, progress);
  }

  async function measureFile(cloud: QueuedCloud, { occasion, task }: PreparedScan, path: string, progress: (step: string, share: number) => void): Promise<string | undefined> {
    const worker = (thread ??= openPlanThread<ScanTask, ScanWork>(workerAddress(), WORDS));
    const outcome = await worker.plan({ ...task, cloud: { ...task.cloud, path, pictures: parts.pictures } }, progress);
    if (!outcome.ok) return refuse(cloud, outcome.refusals);
    const { quality, layout, plants, mass } = outcome.value;
    if (!await queue.beat(cloud.sha256, owner, 0.98, 'recording')) return undefined;
    await record({ do: 'record-scan', measured: composeScan(occasion, quality, layout, plants, mass) });
    await end(cloud);
    dropOldPoints(parts.pictures, greenhouse.state().basins[occasion.basin]?.scans ?? []);
    return occasion.basin;
  }

  async function record(command: ScanCommand): Promise<void> {
    const outcome = await greenhouse.recordScan(command, nowAt());
    // What the journal holds already was recorded before work broke off.
    if (!outcome.ok && outcome.refusals.some(({ code }) => code !== 'state-conflict')) throw new Error(outcome.refusals.map(({ message }) => message).join(' '));
  }

  async function refuse(cloud: QueuedCloud, refusals: readonly Refusal[]): Promise<undefined> {
    const { sha256, name, bytes, basin, takenAt, arrivedAt } = cloud;
    await record({ do: 'refuse-scan', arrivedAt, refusal: { scan: scanName(sha256), cloud: { sha256, name, bytes }, refusals, ...(basin === undefined ? {} : { basin }), ...(takenAt === undefined ? {} : { takenAt }) } });
    return end(cloud, refusals);
  }

  async function end(cloud: QueuedCloud, refusals?: readonly Refusal[]): Promise<undefined> {
    const endedAt = nowAt();
    await placeOf(cloud.name)?.drop(cloud.name);
    if (await queue.finish(cloud.sha256, owner, endedAt, refusals)) await tell({ ...cloud, state: refusals === undefined ? 'done' : 'refused', share: 1, endedAt, ...(refusals === undefined ? {} : { refusals }) });
    return undefined;
  }

  async function tell(cloud: QueuedCloud): Promise<void> {
    const waiting = (await queue.list(nowAt())).filter(({ state }) => state === 'queued').length;
    live.push('imaging', { ...jobOf(cloud), waiting });
  }
}

function jobOf({ sha256, name, bytes, basin, takenAt, arrivedAt, state, share, step, endedAt, refusals }: QueuedCloud): ScanJob {
  return {
    scan: scanName(sha256), file: name, bytes, arrivedAt, state, share, ...(basin === undefined ? {} : { basin }), ...(takenAt === undefined ? {} : { takenAt }),
    ...(step === undefined ? {} : { step }), ...(endedAt === undefined ? {} : { endedAt }), ...(refusals === undefined ? {} : { refusals }),
  };
}

function workerAddress(): URL {
  const here = import.meta.url;
  return new URL(here.endsWith('.ts') ? './scanWorker.ts' : './scanWorker.js', here);
}
