import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { JournalAnswer, PlanAnswer, SheetVisit, TryAnswer } from '../../src/desk/contract.ts';
import type { RunningDesk } from '../../src/desk/startDesk.ts';
import { measureInput } from './measureInput.ts';
import { openBrowser } from './openBrowser.ts';
import { DEMO_MORNING, makeDemoDesk, type DemoDesk } from './openDemoDesk.ts';
import { watchPage } from './watchPage.ts';

const PLANNING_MS = 240_000;

describe('a stop is moved by a person, in a real browser, on the real store and the real plan', () => {
  let demo: DemoDesk;
  let desk: RunningDesk;
  let browser: Browser;
  let page: Page;
  let seen: string[];
  const plan = async () => await (await fetch(`${desk.url}/api/plan`)).json() as PlanAnswer;
  const sheet = async () => { const { inForce, proposal } = await plan(); return (proposal ?? inForce)!.sheet; };
  const bar = (visit: SheetVisit, stop = 0) => page.locator(`[data-bar="${visit.stops[stop]!.station}-${visit.visit}-${(Date.parse(visit.stops[stop]!.startAt) - startMs) / 1000}"]`);
  let startMs = 0;
  /** A visit of the middle of the day. */
  const pick = async () => { const { visits, timeline } = await sheet(); startMs = Date.parse(timeline.startAt); return visits[Math.floor(visits.length / 2)]!; };
  const clock = (ms: number) => new Intl.DateTimeFormat('en-GB', { timeZone: 'Europe/London', hour: '2-digit', minute: '2-digit' }).format(ms);

  beforeAll(async () => {
    demo = await makeDemoDesk();
    [desk, browser] = await Promise.all([demo.open(DEMO_MORNING), openBrowser()]);
    await desk.settled();
    page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
    seen = watchPage(page, desk.url);
    await page.goto(desk.url);
    await page.getByLabel('I am').selectOption('mirel');
  }, PLANNING_MS);

  afterAll(async () => {
    await browser?.close();
    await desk?.close();
    demo?.remove();
  });

  it('by keys: arrows by a minute and five, Enter asks, Escape puts it back, and nothing is changed', async () => {
    const visit = await pick();
    const before = (await sheet()).planId;
    await bar(visit).focus();
    for (const key of ['ArrowRight', 'Shift+ArrowRight', 'ArrowLeft']) await page.keyboard.press(key);
    const wanted = clock(Math.round(Date.parse(visit.stops[0]!.startAt) / 60_000) * 60_000 + 5 * 60_000);
    const answer = page.locator('.move-answer');
    expect(await answer.innerText()).toContain(`Basin ${visit.basin} at `);
    expect(await answer.innerText()).toContain(`from ${wanted} instead of`);
    await page.keyboard.press('Enter');
    await answer.getByText(/would break|Nothing breaks/).waitFor();
    await page.keyboard.press('Escape');
    await answer.waitFor({ state: 'detached' });
    expect((await sheet()).planId).toBe(before);
  });

  it('by dragging: the bar follows, and the desk answers within 100 ms with what breaks', async () => {
    const visit = await pick();
    await bar(visit).scrollIntoViewIfNeeded();
    const box = (await bar(visit).boundingBox())!;
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width / 2 + 20, box.y + box.height / 2, { steps: 4 });
    expect(await page.locator('.move-ghost rect').count()).toBe(1);
    const answered = page.waitForResponse((response) => response.url().endsWith('/api/plan/try'));
    await page.mouse.move(box.x + box.width / 2 + 60, box.y + box.height / 2, { steps: 4 });
    await page.mouse.up();
    const response = await answered;
    const tried = await response.json() as TryAnswer;
    const again: number[] = [];
    for (let number = 0; number < 9; number += 1) again.push((await (await fetch(`${desk.url}/api/plan/try`, { method: 'POST', headers: { 'content-type': 'application/json' }, body: response.request().postData()! })).json() as TryAnswer).tookMs);
    again.sort((a, b) => a - b);
    await page.locator('.move-answer').getByText(/would break|Nothing breaks/).waitFor();
    expect(await page.locator('.breaks li').count()).toBe(tried.breaks.length);
    console.log(`desk: a dragged stop answered in ${tried.tookMs} ms, asked again in ${again[4]} ms (median of nine): ${tried.breaks.map(({ sentence }) => sentence).join(' ')}`);
    expect(again[4]).toBeLessThan(100);
    await page.getByRole('button', { name: 'Put it back' }).click();
  });

  it('from a form, on a phone: what cannot be is said, and what can is kept with the rest planned around it', async () => {
    const phone = await browser.newPage({ viewport: { width: 390, height: 844 } });
    await phone.goto(desk.url);
    await phone.getByLabel('I am').selectOption('mirel');
    const visit = await pick();
    const begins = Date.parse(visit.stops[0]!.startAt);
    await phone.getByRole('button', { name: 'Unfold all hours', exact: true }).first().click();
    const row = phone.locator(`[id="visit-${visit.visit}"]`);
    await row.getByRole('button', { name: /: move$/ }).first().click();
    await row.getByLabel('Begins at').fill('04:00');
    await row.getByRole('button', { name: 'Try it' }).click();
    await row.getByRole('button', { name: 'It cannot be kept there' }).waitFor();
    await row.getByLabel('Begins at').fill(clock(Math.floor(begins / 60_000) * 60_000 + 12 * 60_000));
    await row.getByRole('button', { name: 'Try it' }).click();
    await row.getByRole('button', { name: 'Keep it there and plan the rest around it' }).click();
    await phone.getByText('Kept where people want it').waitFor({ timeout: PLANNING_MS });
    await phone.close();
    const after = await plan();
    expect(after.proposal!.sheet.pins).toMatchObject([{ visit: visit.visit, by: 'mirel' }]);
    expect(Date.parse(after.proposal!.sheet.visits.find((is) => is.visit === visit.visit)!.stops[0]!.startAt)).toBe(Math.floor(begins / 60_000) * 60_000 + 12 * 60_000);
    expect(after.proposal!.because).toContain(`wants basin ${visit.basin} at`);
    console.log(`desk: around the kept stop: ${after.proposal!.changes!.sentence}`);
  }, PLANNING_MS);

  it('shows before and after side by side, lets go of it again, and journals it with the approval', async () => {
    await page.getByText('Kept where people want it').waitFor();
    await page.getByText(/^Before and after, side by side/).click();
    expect(await page.locator('.before-after svg').count()).toBe(2);
    expect(await page.locator('.before-after .pointed-at').count()).toBeGreaterThan(0);
    await page.getByRole('button', { name: 'Approve this plan' }).click();
    await page.getByText(/Approved by Mirel Okonjo/).waitFor();
    const { lines } = await (await fetch(`${desk.url}/api/journal`)).json() as JournalAnswer;
    expect(lines.map(({ sentence }) => sentence).find((sentence) => sentence.includes('mirel approved plan'))).toMatch(/; mirel wanted stop 1 of visit \S+ at \S+ from \d\d:\d\d UTC\.$/);
  }, PLANNING_MS);

  it('answers keys within 100 ms of idle while the planner is planning', async () => {
    await desk.settled();
    const visit = await pick();
    await bar(visit).focus();
    const idle = await measureInput(page, 'ArrowRight', 25);
    await page.keyboard.press('Escape');
    await fetch(`${desk.url}/api/plan/replan`, { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify({ by: 'mirel' }) });
    await page.getByText(/Planning the rest of the day again/).waitFor();
    await bar(visit).focus();
    const busy = await measureInput(page, 'ArrowRight', 25, async () => (await plan()).status.phase === 'planning');
    await page.keyboard.press('Escape');
    console.log(`desk: from key to paint, ms: idle median ${idle.medianMs.toFixed(0)}, most ${idle.mostMs.toFixed(0)} (${idle.count} keys); while planning median ${busy.medianMs.toFixed(0)}, most ${busy.mostMs.toFixed(0)} (${busy.count} keys)`);
    await desk.settled();
    expect(busy.count).toBeGreaterThan(5);
    expect(busy.medianMs).toBeLessThan(100 + idle.medianMs);
  }, PLANNING_MS);

  it('never failed on its console', () => expect(seen).toEqual([]));
});
