import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';
import { startDesk, type RunningDesk } from '../../src/desk/startDesk.ts';
import { demoGreenhouse } from '../../src/twin/demo/demoGreenhouse.ts';
import { readDemoSources } from '../../src/twin/demo/readDemoSources.ts';

export const DEMO_DATE = '2026-04-14';
/** Five minutes into the demo's shift, which begins at 06:00 British summer time. */
export const DEMO_MORNING = `${DEMO_DATE}T05:05:00Z`;

export interface DemoDesk {
  /** Opens the desk of the folder; the one before must be closed. */
  readonly open: (startAt: string) => Promise<RunningDesk>;
  readonly remove: () => void;
}

/** A fresh demo greenhouse in a folder of its own, with pages built from the sources as they are now. */
export async function makeDemoDesk(): Promise<DemoDesk> {
  const place = mkdtempSync(join(tmpdir(), 'watermeadow-desk-'));
  const [folder, pagesFolder] = [join(place, 'greenhouse'), join(place, 'pages')];
  const files = demoGreenhouse({ seed: 1, date: DEMO_DATE, written: readDemoSources() });
  for (const [path, text] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
  const configFile = fileURLToPath(new URL('../../vite.config.ts', import.meta.url));
  await build({ configFile, root: fileURLToPath(new URL('../../src/web', import.meta.url)), logLevel: 'error', build: { outDir: pagesFolder, emptyOutDir: true } });
  return {
    async open(startAt) {
      const desk = await startDesk({ folder, port: 0, pagesFolder, startAt });
      if (!desk.ok) throw new Error(desk.refusals.map((is) => `${is.path}: ${is.message}`).join('\n'));
      return desk.value;
    },
    remove: () => rmSync(place, { recursive: true, force: true }),
  };
}
