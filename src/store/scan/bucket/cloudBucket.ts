import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, rmSync, statSync } from 'node:fs';
import { rm } from 'node:fs/promises';
import { extname, join } from 'node:path';
import type { BucketSettings } from '../../../greenhouse/schema/greenhouseFile.ts';
import type { CloudPlace, ListedCloud } from '../cloudPlace.ts';
import { CLOUD_NAME } from '../readCloudName.ts';
import { keysMissing } from './answerFault.ts';
import { askBucket, PATIENCE, type OpenBucket, type Patience } from './askBucket.ts';
import type { BucketKeys } from './bucketKeys.ts';
import { downloadObject } from './downloadObject.ts';
import { listObjects } from './listObjects.ts';
import { objectAddress } from './objectAddress.ts';
import type { ListedObject } from './objectListing.ts';

export interface BucketPlaceParts {
  readonly settings: BucketSettings;
  readonly keys: BucketKeys | undefined;
  /** Where clouds lie while they are worked on. */
  readonly folder: string;
  readonly patience?: Patience;
}

/** Most bytes of clouds that wait in the folder: what is beyond is fetched a second time when its turn comes. */
const MOST_WAITING_BYTES = 4e9;
/** A JSON beside a cloud is longer than this by mistake only. */
const MOST_BESIDE = 10_000;

/**
 * A bucket of S3-compatible storage. Clouds are named BUCKET/KEY. What was fetched stays in the folder until it is dropped, so that work
 * goes on after a crash without fetching again; what a crash left unfinished, and what is no longer in the bucket, is removed at the next look.
 */
export function cloudBucket({ settings, keys, folder, patience = PATIENCE }: BucketPlaceParts): CloudPlace {
  const ended = new AbortController(), before = `${settings.name}/`;
  const bucket = (): OpenBucket => { if (keys === undefined) throw keysMissing(settings); return { settings, keys, patience, ended: ended.signal }; };
  const keyOf = (name: string): string => name.slice(before.length);
  let objects = new Map<string, ListedObject>(), lookedMs = -Infinity;
  mkdirSync(folder, { recursive: true });

  const look = async (): Promise<void> => {
    lookedMs = performance.now();
    objects = new Map((await listObjects(bucket())).map((object) => [object.key, object]));
    const wanted = new Set([...objects.values()].map(fileOf));
    for (const file of readdirSync(folder)) if (!wanted.has(file)) rmSync(join(folder, file), { force: true });
  };
  const drop = async (name: string): Promise<void> => {
    const object = objects.get(keyOf(name));
    if (object !== undefined) await rm(join(folder, fileOf(object)), { force: true });
  };
  return {
    words: `the bucket ${settings.name}${settings.prefix === '' ? '' : `, below ${settings.prefix},`} at ${settings.endpoint}`,
    owns: (name) => name.startsWith(before),
    list: async () => {
      if (performance.now() - lookedMs < settings.lookEveryS * 1000) return undefined;
      await look();
      return [...objects.values()].filter(({ key }) => CLOUD_NAME.test(key)).map((object): ListedCloud => ({ name: before + object.key, bytes: object.bytes, modifiedMs: Math.max(object.modifiedMs, objects.get(`${object.key}.json`)?.modifiedMs ?? 0) }));
    },
    beside: async (name) => {
      if (objects.size > 0 && !objects.has(`${keyOf(name)}.json`)) return undefined;
      const text = await askBucket(bucket(), objectAddress(settings, `${keyOf(name)}.json`), async (answer) => (await answer.text()).slice(0, MOST_BESIDE));
      return text === 'absent' ? undefined : text;
    },
    fetch: async (name) => {
      if (!objects.has(keyOf(name))) await look();
      const object = objects.get(keyOf(name));
      if (object === undefined) return undefined;
      const path = join(folder, fileOf(object));
      return existsSync(path) || await downloadObject(bucket(), object, path) ? path : undefined;
    },
    rest: async (name) => {
      const waiting = readdirSync(folder).map((file) => statSync(join(folder, file), { throwIfNoEntry: false })?.size ?? 0).reduce((sum, bytes) => sum + bytes, 0);
      if (waiting > MOST_WAITING_BYTES) await drop(name);
    },
    drop,
    close: () => ended.abort(),
  };
}

/** Name of the file of an object in this state: what is changed in the bucket is another file. */
const fileOf = ({ key, bytes, tag, modifiedMs }: ListedObject): string => createHash('sha256').update(JSON.stringify([key, bytes, tag, modifiedMs])).digest('hex').slice(0, 32) + extname(key).toLowerCase();
