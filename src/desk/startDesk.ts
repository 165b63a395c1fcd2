import { fileURLToPath } from 'node:url';
import pino, { type Logger } from 'pino';
import { accepted, type Outcome } from '../science/refusal.ts';
import type { BucketSettings } from '../greenhouse/schema/greenhouseFile.ts';
import { bucketKeys } from '../store/scan/bucket/bucketKeys.ts';
import { cloudBucket } from '../store/scan/bucket/cloudBucket.ts';
import { cloudFolder } from '../store/scan/cloudFolder.ts';
import type { CloudPlace } from '../store/scan/cloudPlace.ts';
import { fetchedFolder, picturesFolder } from '../store/scan/pictureFiles.ts';
import { buildDesk } from './buildDesk.ts';
import { openLiveFeed } from './http/liveFeed.ts';
import { openFolder } from './openFolder.ts';
import { keepImaging } from './imaging/keepImaging.ts';
import { keepScores } from './imaging/keepScores.ts';
import { keepMorning, type Morning } from './planning/keepMorning.ts';
import { dateIn } from './planning/restoreApproved.ts';

export interface DeskSettings {
  readonly folder: string;
  /** 0 takes any free port. */
  readonly port: number;
  /** Address to listen on; only this machine where absent. */
  readonly host?: string;
  /** A PostgreSQL server instead of the embedded one. */
  readonly serverUrl?: string;
  /** The desk's clock begins at this UTC instant and runs on from there; the clock of the machine where absent. */
  readonly startAt?: string;
  /** Folder of the built pages; the ones built with the program where absent. */
  readonly pagesFolder?: string;
  readonly logger?: Logger;
}

export interface RunningDesk {
  readonly url: string;
  /** Resolves when no planning is under way. */
  readonly settled: () => Promise<void>;
  readonly close: () => Promise<void>;
}

const DAY_CHECK_MS = 60_000;
/** How often the place of the clouds is looked at. */
const LOOK_MS = 3000;

/**
 * Opens a greenhouse folder and serves its desk. The first plan is computed while the pages open already. Refused where the
 * folder is (files with errors, another program has it); throws where the port or the database cannot be had.
 */
export async function startDesk(settings: DeskSettings): Promise<Outcome<RunningDesk>> {
  const { folder, port, host = '127.0.0.1', serverUrl, logger = pino({ level: 'warn' }, pino.destination(2)) } = settings;
  const nowAt = clockFrom(settings.startAt);
  const opened = await openFolder({ folder, program: 'desk', nowAt: nowAt(), log: (message) => logger.info(message), ...(serverUrl === undefined ? {} : { serverUrl }) });
  if (!opened.ok) return opened;
  const { greenhouse, maker, sowing, scans, announceAddress } = opened.value;
  const live = openLiveFeed(Date.now().toString(36));
  const morning = keepMorning({ greenhouse, maker, live, nowAt, report: (error) => logger.error({ err: error }, 'planning') });
  const imaging = keepImaging({
    greenhouse, queue: scans, places: cloudPlaces(folder, greenhouse.state().file?.imaging.bucket), pictures: picturesFolder(folder), live, nowAt, newestPlan: morning.newest, report: (error) => logger.error({ err: error }, 'imaging'),
    onScans: (basins) => morning.replan(`${basins.length === 1 ? `basin ${basins[0]} was` : `${basins.length} basins were`} scanned`),
  });
  const scores = keepScores(greenhouse, (error) => logger.error({ err: error }, 'scores'));
  const app = await buildDesk({ greenhouse, morning, sowing, imaging, scores, live, nowAt }, { host, pagesFolder: settings.pagesFolder ?? builtPages(), logger });
  const watch = setInterval(() => replanOnNewDay(morning, greenhouse.state().file?.location.timeZone, nowAt()), DAY_CHECK_MS);
  const looks = setInterval(() => void lookForClouds(), LOOK_MS);
  const lookForClouds = async (): Promise<void> => {
    // Forecasts that do not know a scan yet are what it is held against: the first plan comes first.
    await morning.settled();
    await imaging.look();
  };
  const close = async (): Promise<void> => {
    clearInterval(watch);
    clearInterval(looks);
    await imaging.close();
    await scores.close();
    live.close();
    await app.close();
    await maker.close();
    await sowing.close();
    await greenhouse.close();
  };
  try {
    const url = await app.listen({ host, port });
    await announceAddress(url);
    morning.replan('the desk was opened');
    return accepted({ url, settled: morning.settled, close }, opened.warnings);
  } catch (error) {
    await close();
    throw error;
  }
}

/** The folder scans/, and the bucket that greenhouse.yaml names. */
function cloudPlaces(folder: string, settings: BucketSettings | undefined): CloudPlace[] {
  return [cloudFolder(folder), ...(settings === undefined ? [] : [cloudBucket({ settings, keys: bucketKeys(process.env), folder: fetchedFolder(folder) })])];
}

/** A plan is for one day: when the greenhouse's date changes, the next one is computed. */
function replanOnNewDay(morning: Morning, timeZone: string | undefined, nowAt: string): void {
  const newest = morning.newest();
  if (newest === undefined || timeZone === undefined || dateIn(newest.at, timeZone) === dateIn(nowAt, timeZone)) return;
  if (morning.status().phase !== 'planning') morning.replan('a new day began');
}

function clockFrom(startAt: string | undefined): () => string {
  const aheadMs = startAt === undefined ? 0 : Date.parse(startAt) - Date.now();
  return () => new Date(Date.now() + aheadMs).toISOString();
}

/** dist/web, seen from dist/desk as well as from src/desk. */
function builtPages(): string {
  const here = import.meta.url;
  return fileURLToPath(new URL(here.endsWith('.ts') ? '../../dist/web' : '../web', here));
}
