import { readFileSync, readlinkSync } from 'node:fs';
import { readFile, rename, rm, stat, utimes, writeFile } from 'node:fs/promises';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import type { Holder } from '../sql/greenhouseHold.ts';

const BEAT_MS = 2_000;
/** Without a beat for so long the other program is dead for certain. */
const DEAD_MS = 15_000;

/** A file whose time moves on while this program lives. */
export interface Heartbeat {
  readonly tell: (holder: Holder) => Promise<void>;
  readonly stop: () => Promise<void>;
}

interface Beat extends Holder {
  /** Where the sockets of the program can be seen: programs in the same reach need no heartbeat. */
  readonly reach: string;
}

export async function startHeartbeat(stateFolder: string, holder: Holder): Promise<Heartbeat> {
  const file = fileIn(stateFolder);
  const tell = async (now: Holder): Promise<void> => {
    await writeFile(`${file}.new`, JSON.stringify({ ...now, reach: reachOfSockets() } satisfies Beat));
    await rename(`${file}.new`, file);
  };
  await tell(holder);
  const timer = setInterval(() => {
    const now = new Date();
    utimes(file, now, now).catch(() => undefined);
  }, BEAT_MS).unref();
  return {
    tell,
    stop: async () => {
      clearInterval(timer);
      await rm(file, { force: true });
    },
  };
}

/** The program outside the reach of our sockets that has the folder and is alive; undefined where there is none. Waits for one beat where that is in doubt. */
export async function watchForeignHeartbeat(stateFolder: string): Promise<Holder | undefined> {
  const file = fileIn(stateFolder);
  const beat = await readBeat(file);
  if (beat === undefined || beat.reach === reachOfSockets()) return undefined;
  const before = await timeOf(file);
  if (before === undefined || Math.abs(Date.now() - before) > DEAD_MS) return undefined;
  const untilMs = performance.now() + 2 * BEAT_MS + 500;
  while (performance.now() < untilMs) {
    await sleep(100);
    const now = await timeOf(file);
    if (now !== undefined && now !== before) return withoutReach(beat);
  }
  return undefined;
}

/** Who wrote the file last: for when the program itself is too busy to answer. */
export async function readHeartbeat(stateFolder: string): Promise<Holder | undefined> {
  const beat = await readBeat(fileIn(stateFolder));
  return beat && withoutReach(beat);
}

const withoutReach = ({ pid, program, host, address }: Beat): Holder => ({ pid, program, host, address });
const fileIn = (stateFolder: string): string => join(stateFolder, 'open.json');
const timeOf = (file: string): Promise<number | undefined> => stat(file).then((stats) => stats.mtimeMs, () => undefined);

async function readBeat(file: string): Promise<Beat | undefined> {
  try {
    return JSON.parse(await readFile(file, 'utf8')) as Beat;
  } catch {
    return undefined;
  }
}

/** Machine, start of the machine and network namespace: abstract sockets are seen within one of them. */
function reachOfSockets(): string {
  try {
    return `${readFileSync('/proc/sys/kernel/random/boot_id', 'utf8').trim()} ${readlinkSync('/proc/self/ns/net')}`;
  } catch {
    return hostname();
  }
}
