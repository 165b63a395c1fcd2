import { demoGreenhouse } from '../../src/twin/demo/demoGreenhouse.ts';
import { readDemoSources } from '../../src/twin/demo/readDemoSources.ts';
import { folderState, type Folder } from './folderState.ts';

export const DEMO_DATE = '2026-11-25';
export const DEMO_AT = `${DEMO_DATE}T05:30:00Z`;

let made: Folder | undefined;

/** The demonstration greenhouse on the morning of DEMO_DATE. */
export function demoFolder(): Folder {
  made ??= folderState(demoGreenhouse({ seed: 7, date: DEMO_DATE, written: readDemoSources() }));
  return made;
}
