import type { ScanCommand } from '../../greenhouse/decideScan.ts';
import { composeScan } from '../../planning/imaging/composeScan.ts';
import type { MorningPlan } from '../../planning/morningPlan.ts';
import type { Refusal } from '../../science/refusal.ts';
import type { CloudPlace, ListedCloud } from '../../store/scan/cloudPlace.ts';
import { hashFile } from '../../store/scan/hashFile.ts';
import { readCloudName } from '../../store/scan/readCloudName.ts';
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
  readonly place: CloudPlace;
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
  readonly place: string;
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
  const { greenhouse, queue, place, live, nowAt } = parts;
  const owner = `${process.pid}-${Date.now().toString(36)}`;
  let thread: PlanThread<ScanTask, ScanWork> | undefined;
  let running: Promise<void> | undefined;
  let closed = false;

  return {
    place: place.words, pictures: parts.pictures,
    jobs: async () => (await queue.list(new Date(Date.parse(nowAt()) - SHOWN_MS).toISOString())).map(jobOf),
    look: () => (running ??= work().catch(parts.report).finally(() => { running = undefined; })),
    close: async () => {
      closed = true;
      await thread?.close();
      await running;
    },
  };

  async function work(): Promise<void> {
    for (const file of await place.list()) if (!await queue.knowsFile(file)) await arrive(file);
    const basins: string[] = [];
    for (let cloud = await take(); cloud !== undefined; cloud = await take()) {
      const basin = await workOn(cloud);
      if (basin !== undefined && !basins.includes(basin)) basins.push(basin);
    }
    if (basins.length > 0) parts.onScans(basins);
  }

  async function take(): Promise<QueuedCloud | undefined> {
    return closed ? undefined : queue.take(owner);
  }

  async function arrive({ name, bytes, modifiedMs }: ListedCloud): Promise<void> {
    const { path, release } = await place.fetch(name);
    const sha256 = await hashFile(path).finally(release);
    const occasion = readCloudName(name, await place.beside(name));
    const cloud = { sha256, name, bytes, modifiedMs, arrivedAt: nowAt(), ...(occasion.ok ? occasion.value : {}) };
    if (await queue.arrive(cloud) !== 'known') await tell({ ...cloud, state: 'queued', attempt: 0, share: 0 });
  }

  /** Returns the basin of a scan that was recorded. */
  async function workOn(cloud: QueuedCloud): Promise<string | undefined> {
    const { state } = greenhouse, scan = scanName(cloud.sha256);
    if (Object.values(state().basins).some(({ scans }) => scans.some((note) => note.scan === scan))) return end(cloud);
    if (cloud.attempt > MOST_ATTEMPTS) return refuse(cloud, [{ code: 'scan-broke-off', path: `scans/${cloud.name}`, value: cloud.attempt - 1, message: `Measuring ${cloud.name} broke off ${MOST_ATTEMPTS} times; the log of the desk says more.`, severity: 'error' }]);
    const beat = setInterval(() => { queue.beat(cloud.sha256, owner, shown.share, shown.step).catch(parts.report); }, HEARTBEAT_MS);
    const shown = { share: 0, step: 'reading' };
    const progress = (step: string, share: number): void => {
      Object.assign(shown, { share, step });
      tell({ ...cloud, state: 'running', share, step }).catch(parts.report);
    };
    try {
      return await measure(cloud, progress);
    } catch (error) {
      await queue.putBack(cloud.sha256, owner, closed);
      throw error;
    } finally {
      clearInterval(beat);
    }
  }

  async function measure(cloud: QueuedCloud, progress: (step: string, share: number) => void): Promise<string | undefined> {
    const occasion = readCloudName(cloud.name, await place.beside(cloud.name));
    if (!occasion.ok) return refuse(cloud, occasion.refusals);
    const ground: ScanGround = { state: greenhouse.state(), events: greenhouse.allEvents(), plan: parts.newestPlan(), nowAt: nowAt() };
    const prepared = prepareScan(cloud, occasion.value, ground);
    if (!prepared.ok) return refuse(cloud, prepared.refusals);
    const file = await place.fetch(cloud.name).catch(() => undefined);
    if (file === undefined) return refuse(cloud, [{ code: 'file-missing', path: `scans/${cloud.name}`, message: `${cloud.name} is no longer there; give it again.`, severity: 'error' }]);
    try {
      if (await hashFile(file.path).catch(() => '') !== cloud.sha256) return await refuse(cloud, [{ code: 'inconsistent', path: `scans/${cloud.name}`, message: `${cloud.name} was changed while it waited; what it is now comes into the queue by itself.`, severity: 'error' }]);
      progress('reading', 0.02);
      return await measureFile(cloud, prepared.value, file.path, progress);
    } finally {
      await file.release();
    }
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
