import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openBrowser } from './openBrowser.ts';
import { findFaults } from './pageChecks.ts';

describe('the checks themselves', () => {
  let browser: Browser;
  beforeAll(async () => { browser = await openBrowser(); });
  afterAll(async () => { await browser?.close(); });

  it('find what is wrong with a page that does everything wrong', async () => {
    const page = await browser.newPage({ viewport: { width: 390, height: 844 } });
    await page.setContent('<h2>Second first</h2><p style="color:#999;background:#fff">pale</p><button style="width:20px;height:20px"></button><i id="a"></i><i id="a"></i><div style="width:900px">wide</div><svg role="img"><text fill="#bbb" y="20">faint</text></svg>');
    const faults = (await findFaults(page, 48)).join('\n');
    for (const word of ['names no language', 'no title', 'wider than the screen', 'not exactly one first heading', 'skips a level', 'id a stands twice', '<button> "" has no name', 'is only 20 x 20 px', '"pale" has a contrast of only 2.8', '"faint" has a contrast of only 1.9', '<svg> "faint" has no name']) expect(faults).toContain(word);
    await page.close();
  });
});
