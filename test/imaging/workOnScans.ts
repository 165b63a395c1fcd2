// A program that works on the clouds of a folder and says on standard output how far it is. Killed by a test.
import { writeSync } from 'node:fs';
import { openImaging } from './openImaging.ts';

const [folder = '', nowAt = ''] = process.argv.slice(2);
const { imaging } = await openImaging(folder, nowAt, ({ state, file }) => writeSync(1, `${state} ${file}\n`));
await imaging.look();
await imaging.look();
writeSync(1, 'finished\n');
