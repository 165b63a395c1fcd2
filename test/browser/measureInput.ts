import type { Page } from 'playwright-core';

export interface InputDelays { readonly count: number; readonly medianMs: number; readonly mostMs: number }

/**
 * Presses a key again and again and measures in the page from the moment at which the browser had the key (the time stamp of the
 * event) to the first frame painted after it was handled. `goesOn`: ends early when it says no.
 */
export async function measureInput(page: Page, key: string, presses: number, goesOn: () => Promise<boolean> = async () => true): Promise<InputDelays> {
  await page.evaluate(() => {
    const delays: number[] = [];
    Object.assign(window, { inputDelays: delays });
    addEventListener('keydown', ({ timeStamp }) => requestAnimationFrame(() => {
      const painted = new MessageChannel();
      painted.port1.addEventListener('message', () => { delays.push(performance.now() - timeStamp); painted.port1.close(); });
      painted.port1.start();
      painted.port2.postMessage(undefined);
    }), { capture: true, signal: Object.assign(window, { stopInput: new AbortController() }).stopInput.signal });
  });
  for (let number = 0; number < presses && await goesOn(); number += 1) {
    await page.keyboard.press(key);
    await page.waitForTimeout(60);
  }
  const delays = await page.evaluate(() => {
    const own = window as unknown as { readonly inputDelays: number[]; readonly stopInput: AbortController };
    own.stopInput.abort();
    return own.inputDelays;
  });
  const sorted = [...delays].sort((a, b) => a - b);
  return { count: sorted.length, medianMs: sorted[sorted.length >> 1] ?? 0, mostMs: sorted.at(-1) ?? 0 };
}
