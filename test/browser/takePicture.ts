import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import { shrinkPicture } from './shrinkPicture.ts';

/** WRITE_PICTURES=1 rewrites docs/pictures; look at every one of them before committing. */
const FOLDER = process.env.WRITE_PICTURES === '1' ? fileURLToPath(new URL('../../docs/pictures/', import.meta.url)) : undefined;

/** Takes a picture of the whole page for the docs, where asked for. A phone picture is taken as one tall screen, so that the bar at its foot stands at its foot. `jpeg` where the page holds a picture of its own. */
export async function takePicture(page: Page, screen: { readonly name: string; readonly width: number; readonly height: number }, name: string, form: 'png' | 'jpeg' = 'png'): Promise<void> {
  if (FOLDER === undefined) return;
  const height = Math.min(3600, await page.evaluate(() => document.documentElement.scrollHeight));
  await page.evaluate(() => scrollTo(0, 0));
  await page.setViewportSize({ width: screen.width, height: Math.max(screen.height, height) });
  mkdirSync(FOLDER, { recursive: true });
  if (form === 'jpeg') writeFileSync(join(FOLDER, `${name}-${screen.name}.jpg`), await page.screenshot({ type: 'jpeg', quality: 80 }));
  else writeFileSync(join(FOLDER, `${name}-${screen.name}.png`), shrinkPicture(await page.screenshot()));
  await page.setViewportSize({ width: screen.width, height: screen.height });
}
