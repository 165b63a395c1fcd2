import { createHash } from 'node:crypto';
import { open, rename, rm } from 'node:fs/promises';
import { wrongBytes } from './answerFault.ts';
import { askBucket, type OpenBucket } from './askBucket.ts';
import { objectAddress } from './objectAddress.ts';
import type { ListedObject } from './objectListing.ts';

/**
 * Brings an object to `path`, under another name until all of it is there with the size that the listing states and, where the entity tag
 * is an MD5 sum (stored in one part, not encrypted with keys of its own), with that sum. False where the object is gone.
 */
export async function downloadObject(bucket: OpenBucket, object: ListedObject, path: string): Promise<boolean> {
  const part = `${path}.part`;
  try {
    const got = await askBucket(bucket, objectAddress(bucket.settings, object.key), (answer, stillThere) => writePart(bucket, object, part, answer, stillThere));
    if (got === 'absent') return false;
    await rename(part, path);
    return true;
  } finally {
    await rm(part, { force: true });
  }
}

async function writePart({ settings }: OpenBucket, { key, bytes, tag }: ListedObject, part: string, answer: Response, stillThere: () => void): Promise<void> {
  const file = await open(part, 'w'), sum = createHash('md5');
  let got = 0;
  try {
    for await (const piece of answer.body ?? []) {
      stillThere();
      got += piece.length;
      if (got > bytes) break;
      sum.update(piece);
      await file.writeFile(piece);
    }
    await file.sync();
  } finally {
    await file.close();
  }
  if (got !== bytes) throw wrongBytes(settings, key, `${got} instead of ${bytes} bytes`);
  if (isSum(tag, answer) && sum.digest('hex') !== tag) throw wrongBytes(settings, key, 'bytes that do not have the sum that the storage states');
}

const isSum = (tag: string, answer: Response): boolean => /^[\da-f]{32}$/.test(tag) && !/^aws:kms|customer/i.test(answer.headers.get('x-amz-server-side-encryption') ?? '') && !answer.headers.has('x-amz-server-side-encryption-customer-algorithm');
