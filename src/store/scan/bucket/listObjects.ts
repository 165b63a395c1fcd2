import { answerFault } from './answerFault.ts';
import { askBucket, type OpenBucket } from './askBucket.ts';
import { objectAddress } from './objectAddress.ts';
import { readListing, type ListedObject } from './objectListing.ts';

/** Pages of at most a thousand: a listing that does not end is a fault of the storage. */
const MOST_PAGES = 1000;

/** Everything in a bucket below its prefix, page by page. */
export async function listObjects(bucket: OpenBucket): Promise<ListedObject[]> {
  const { settings } = bucket, objects: ListedObject[] = [];
  for (let next: string | undefined, page = 0; page === 0 || next !== undefined; page += 1) {
    const query = { 'list-type': '2', 'encoding-type': 'url', ...(settings.prefix === '' ? {} : { prefix: settings.prefix }), ...(next === undefined ? {} : { 'continuation-token': next }) };
    const listing = await askBucket(bucket, objectAddress(settings, '', query), async (answer) => readListing(await answer.text()));
    if (listing === undefined || listing === 'absent' || page >= MOST_PAGES) throw answerFault(settings, 200, '<Code>no listing of a bucket</Code>');
    objects.push(...listing.objects);
    next = listing.next;
  }
  return objects;
}
