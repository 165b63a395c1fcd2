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
  readonly folder: string;
  /** The files that the folder began with. */
  readonly files: Readonly<Record<string, string>>;
  /** Opens the desk of the folder; the one before must be closed. */
  readonly open: (startAt: string) => Promise<RunningDesk>;
  readonly remove: () => void;
}

/** A fresh demo greenhouse in a folder of its own, with pages built from the sources as they are now. `thin`: as the files are left. */
export async function makeDemoDesk(thin: (files: Record<string, string>) => Readonly<Record<string, string>> = (files) => files): Promise<DemoDesk> {
  const place = mkdtempSync(join(tmpdir(), 'watermeadow-desk-'));
  const [folder, pagesFolder] = [join(place, 'greenhouse'), join(place, 'pages')];
  const files = thin(demoGreenhouse({ seed: 1, date: DEMO_DATE, written: readDemoSources() }));
  for (const [path, text] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
  await buildPages(pagesFolder);
  return {
    folder, files,
    async open(startAt) {
      const desk = await startDesk({ folder, port: 0, pagesFolder, startAt });
      if (!desk.ok) throw new Error(desk.refusals.map((is) => `${is.path}: ${is.message}`).join('\n'));
      return desk.value;
    },
    remove: () => rmSync(place, { recursive: true, force: true }),
  };
}

/** The pages as people get them: the production build, whatever the test runner calls its environment. */
async function buildPages(pagesFolder: string): Promise<void> {
  const root = (path: string) => fileURLToPath(new URL(`../../${path}`, import.meta.url));
  const environment = process.env.NODE_ENV;
  process.env.NODE_ENV = 'production';
  try {
    await build({ configFile: root('vite.config.ts'), root: root('src/web'), mode: 'production', logLevel: 'error', build: { outDir: pagesFolder, emptyOutDir: true } });
  } finally {
    process.env.NODE_ENV = environment;
  }
}
