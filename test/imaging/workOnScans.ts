// A program that works on the clouds of a folder, and of a bucket where an address is given, and says on standard output how far it is. Killed by a test.
import { writeSync } from 'node:fs';
import { bucketPlace } from './bucket/bucketPlace.ts';
import { openImaging } from './openImaging.ts';

const [folder = '', nowAt = '', endpoint] = process.argv.slice(2);
const { imaging } = await openImaging(folder, nowAt, ({ state, file }) => writeSync(1, `${state} ${file}\n`), endpoint === undefined ? [] : [bucketPlace(folder, endpoint)]);
await imaging.look();
await imaging.look();
writeSync(1, 'finished\n');
