import { existsSync } from 'node:fs';
import { chromium, type Browser } from 'playwright-core';

const PLACES = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'];
const FLAGS = ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'];

/** The browser of the distribution, or undefined where there is none. */
export const browserPath = (): string | undefined => PLACES.find((path) => existsSync(path));

export function openBrowser(): Promise<Browser> {
  const executablePath = browserPath();
  if (executablePath === undefined) throw new Error(`No browser at ${PLACES.join(', ')}.`);
  return chromium.launch({ executablePath, args: FLAGS, headless: true });
}
