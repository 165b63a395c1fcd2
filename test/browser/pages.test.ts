import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { JournalAnswer, LotAnswer, LotsAnswer, PlanAnswer, WaterAnswer, WeekAnswer } from '../../src/desk/contract.ts';
import type { RunningDesk } from '../../src/desk/startDesk.ts';
import { openBrowser } from './openBrowser.ts';
import { overfull } from './overfullWeek.ts';
import { DEMO_MORNING, makeDemoDesk, type DemoDesk } from './openDemoDesk.ts';
import { findFaults } from './pageChecks.ts';
import { takePicture } from './takePicture.ts';
import { watchPage } from './watchPage.ts';

const PLANNING_MS = 240_000;
const SCREENS = [{ name: 'desk', width: 1440, height: 900, touchPx: 0 }, { name: 'phone', width: 390, height: 844, touchPx: 48 }] as const;
type Screen = (typeof SCREENS)[number];

describe('every page, on a desk and on a phone', () => {
  let demo: DemoDesk;
  let desk: RunningDesk;
  let browser: Browser;
  let busiest = '';
  const pages = new Map<string, { readonly page: Page; readonly seen: string[] }>();

  beforeAll(async () => {
    demo = await makeDemoDesk();
    [desk, browser] = await Promise.all([demo.open(DEMO_MORNING), openBrowser()]);
    await desk.settled();
    const { proposal } = await (await fetch(`${desk.url}/api/plan`)).json() as PlanAnswer;
    busiest = proposal!.sheet.visits.find((visit) => visit.urgency === 'must' && visit.feedTicket !== undefined)!.basin;
    for (const screen of SCREENS) {
      const page = await browser.newPage({ viewport: { width: screen.width, height: screen.height } });
      pages.set(screen.name, { page, seen: watchPage(page, desk.url) });
      await page.goto(desk.url);
      await page.getByLabel('I am').selectOption('mirel');
    }
  }, PLANNING_MS);

  afterAll(async () => {
    await browser?.close();
    await desk?.close();
    demo?.remove();
  });

  const check = async (screen: Screen, picture: string): Promise<void> => {
    const { page, seen } = pages.get(screen.name)!;
    await page.evaluate(() => new Promise((resolve) => { requestAnimationFrame(() => requestAnimationFrame(resolve)); }));
    expect(await findFaults(page, screen.touchPx)).toEqual([]);
    expect(seen).toEqual([]);
    await takePicture(page, screen, picture);
  };
  const each = (what: string, visit: (page: Page, screen: Screen, seen: string[]) => Promise<void>): void => {
    for (const screen of SCREENS) it(`${what} (${screen.name}, ${screen.width} px)`, () => visit(pages.get(screen.name)!.page, screen, pages.get(screen.name)!.seen), PLANNING_MS);
  };

  each('the morning before approval', async (page, screen) => {
    await page.getByRole('button', { name: 'Approve this plan' }).waitFor();
    await page.locator('.ticket-head').first().click();
    await check(screen, 'morning');
  });

  each('the morning in force, with one hour of the day and an open form', async (page, screen) => {
    if (screen === SCREENS[0]) await page.getByRole('button', { name: 'Approve this plan' }).click();
    await page.getByText('In force').waitFor();
    await page.getByRole('button', { name: 'The hour from 06:00' }).click();
    await page.getByRole('button', { name: /: done$/ }).first().click();
    await page.getByRole('button', { name: 'Record as done' }).waitFor();
    await check(screen, 'morning-in-force');
  });

  each('a stop that is moved by its form, and what breaks', async (page, screen) => {
    await page.goto(desk.url);
    await page.locator('.visit').first().waitFor();
    const bar = page.locator('.bar.movable').nth(20);
    if (screen === SCREENS[0]) {
      await bar.focus();
      for (let number = 0; number < 3; number += 1) await page.keyboard.press('Shift+ArrowRight');
      await page.keyboard.press('Enter');
    } else {
      const move = page.getByRole('button', { name: /: move$/ }).first();
      await move.click();
      await page.getByLabel('Begins at').fill('07:10');
      await page.getByRole('button', { name: 'Try it' }).click();
    }
    await page.getByText(/would break|Nothing breaks/).waitFor();
    await page.locator('.move-answer').scrollIntoViewIfNeeded();
    await check(screen, 'move');
    await page.getByRole('button', { name: 'Put it back' }).click();
  });

  each('a mark that is corrected: the form', async (page, screen, seen) => {
    await page.goto(desk.url);
    await page.locator('.visit').first().waitFor();
    if (screen === SCREENS[0]) {
      await page.getByRole('button', { name: /: failed$/ }).first().click();
      await page.getByLabel('What went wrong').fill('the pump stopped');
      await page.getByRole('button', { name: 'Record as failed' }).click();
    }
    await page.getByRole('button', { name: /: correct what is marked$/ }).first().click();
    await page.getByLabel('Why it was marked wrongly').fill('it was the basin beside it');
    expect(await findFaults(page, screen.touchPx)).toEqual([]);
    expect(seen).toEqual([]);
    if (screen === SCREENS[0]) return;
    await page.getByRole('button', { name: 'Record the correction' }).click();
    await page.locator('.stop-result').first().waitFor({ state: 'detached' });
    const { lines } = await (await fetch(`${desk.url}/api/journal`)).json() as JournalAnswer;
    expect(lines.some(({ sentence, corrects }) => corrects !== undefined && /^mirel corrected stop 1 of visit \S+: not done yet after all, because it was the basin beside it\.$/.test(sentence))).toBe(true);
    await desk.settled();
  });

  each('the wall screen: now, what comes next, legible from 3 m', async (page, screen) => {
    if (screen === SCREENS[0]) await page.setViewportSize({ width: 1920, height: 1080 });
    await page.goto(`${desk.url}/wall`);
    await page.locator('.wall .bar').first().waitFor();
    expect(await page.locator('.wall-next > li').count()).toBe(2);
    expect(await page.locator('.moment.now').count()).toBe(1);
    await check(screen, 'wall');
    if (screen !== SCREENS[0]) return;
    await page.setViewportSize({ width: 1920, height: 1080 });
    expect(await page.evaluate(() => [document.documentElement.scrollHeight <= innerHeight, document.querySelector('.wall-next')!.getBoundingClientRect().bottom <= innerHeight + 1])).toEqual([true, true]);
    const heights = await page.locator('.wall text, .wall p, .wall li').evaluateAll((all) => all.filter((each) => (each.textContent ?? '') !== '' && each.children.length === 0).map((each) => { const scale = each instanceof SVGTextElement ? Math.hypot(each.getScreenCTM()?.a ?? 1, each.getScreenCTM()?.b ?? 0) : 1; return Number.parseFloat(getComputedStyle(each).fontSize) * scale; }));
    console.log(`wall: smallest letters ${Math.min(...heights).toFixed(0)} px on 1920`);
    expect(Math.min(...heights)).toBeGreaterThan(17);
    await page.setViewportSize({ width: screen.width, height: screen.height });
  });

  each('the floor, and a basin picked on it', async (page, screen) => {
    await page.goto(`${desk.url}/floor`);
    await page.getByLabel('Basin number').fill(busiest);
    await page.getByRole('link', { name: `Open basin ${busiest}` }).waitFor();
    await check(screen, 'floor');
  });

  each('a basin', async (page, screen) => {
    await page.getByRole('link', { name: `Open basin ${busiest}` }).click();
    await page.getByRole('heading', { name: `Basin ${busiest}` }).waitFor();
    await check(screen, 'basin');
  });

  each('water: what is in a tank, where a component goes, why a mix and its ticket', async (page, screen) => {
    await page.goto(`${desk.url}/water`);
    await page.getByRole('button', { name: 'What is in it: Returned solution' }).click();
    const water = await (await fetch(`${desk.url}/api/water`)).json() as WaterAnswer;
    const sodium = water.tanks.find(({ source }) => source === 'return-1')!.mmolPerL!.Na!;
    const row = page.getByRole('table', { name: 'What is dissolved in Returned solution' }).getByRole('row', { name: /^sodium/ });
    expect(Number((await row.locator('td').first().innerText()).replaceAll(/\s/g, ''))).toBeCloseTo(sodium, 1);
    await page.getByRole('button', { name: 'potassium', exact: true }).click();
    await page.getByRole('img', { name: /^Balance of potassium: in, / }).waitFor();
    await check(screen, 'water');
    await page.getByRole('button', { name: 'Why this mix for basin' }).first().click();
    const ticket = page.getByRole('link', { name: /^Ticket of B/ });
    const basin = (await ticket.innerText()).slice(10);
    await ticket.click();
    await page.getByRole('article', { name: `Feed ticket of basin ${basin}` }).getByText('In this order').waitFor();
  });

  each('a mixing sheet: water before acid, and the caution before the acid', async (page, screen) => {
    await page.goto(`${desk.url}/water`);
    await page.getByRole('link', { name: 'Mixing sheet of Dilute nitric acid' }).click();
    const sheet = page.getByRole('article', { name: 'Mixing sheet of Dilute nitric acid' });
    await sheet.getByText('Pour acid into water, never water into acid.').waitFor();
    expect(await page.locator('.mixing-sheet').count()).toBe(1);
    const rows = (await sheet.locator('.steps tbody tr').allInnerTexts()).map((text) => text.replaceAll(/\s+/g, ' '));
    expect(rows[0]).toMatch(/fill with water to \d+ L/);
    expect(rows[1]).toContain('never water into acid');
    expect(rows[2]).toMatch(/Pour Nitric acid 60 % slowly into the water\. [\d.]+ k?g or [\d.]+ m?L/);
    await check(screen, 'sheet');
  });

  each('concentrates for a crop, and phosphate that may not go into the calcium tank', async (page, screen) => {
    await page.goto(`${desk.url}/water/recipe`);
    await page.getByLabel('Crop', { exact: true }).selectOption('butterhead');
    await page.getByLabel('Water', { exact: true }).selectOption('mains');
    await page.getByRole('button', { name: 'Work out the recipe' }).click();
    await page.getByRole('article', { name: 'Mixing sheet of Tank C' }).waitFor();
    await check(screen, 'recipe');
    await page.getByLabel('Tank of Monopotassium phosphate').selectOption('A');
    await page.getByText('Calcium nitrate (double salt) and Monopotassium phosphate must not share a concentrated tank').waitFor();
    await page.getByRole('button', { name: 'Put monopotassium-phosphate back from tank A' }).click();
    await page.getByRole('article', { name: 'Mixing sheet of Tank C' }).waitFor();
    const { seen } = pages.get(screen.name)!;
    expect(seen.filter((line) => !/status of 422/.test(line))).toEqual([]);
    seen.length = 0;
  });

  each('orders', async (page, screen) => {
    await page.goto(`${desk.url}/orders`);
    await page.locator('.order').first().waitFor();
    await check(screen, 'orders');
  });

  each('the crop: what is off target, the season, lots, cards', async (page, screen) => {
    await page.goto(`${desk.url}/crop`);
    await page.getByRole('heading', { name: 'Off target' }).waitFor();
    const { lots, season } = await (await fetch(`${desk.url}/api/lots`)).json() as LotsAnswer;
    expect(await page.locator('.lots-off > li').count()).toBe(lots.filter(({ offTarget }) => offTarget !== undefined).length);
    expect(await page.locator('.season svg').count()).toBe(2 * season.length);
    await check(screen, 'crop');
  });

  each('a lot off target: forecast, candidates with figures, and a decision that is found in the journal', async (page, screen) => {
    const { lots } = await (await fetch(`${desk.url}/api/lots`)).json() as LotsAnswer;
    const { lot } = lots.find(({ offTarget }) => offTarget !== undefined)!;
    await page.goto(`${desk.url}/lot/${lot}`);
    await page.getByRole('heading', { name: `Lot ${lot}` }).waitFor();
    const { actions } = await (await fetch(`${desk.url}/api/lots/${lot}`)).json() as LotAnswer;
    expect(await page.locator('.action').count()).toBe(actions!.candidates.length);
    const folded = page.locator('.action-orders summary');
    if (await folded.count() > 0) await folded.first().click();
    await page.getByRole('button', { name: 'Decide: Do nothing more' }).click();
    await page.getByLabel('Why').fill('the customer takes it a day later');
    await check(screen, 'lot');
    await page.getByRole('button', { name: 'Record the decision' }).click();
    await page.getByRole('heading', { name: 'Decisions' }).waitFor();
    await page.getByText('Because: the customer takes it a day later').first().waitFor();
    const { lines } = await (await fetch(`${desk.url}/api/journal`)).json() as JournalAnswer;
    expect(lines[0]).toMatchObject({ kind: 'action-decided', recordedBy: 'mirel', sentence: `mirel decided on lot ${lot}: Do nothing more, because the customer takes it a day later.` });
    await desk.settled();
    await page.goto(`${desk.url}/record`);
    await page.getByText(`mirel decided on lot ${lot}: Do nothing more`).first().waitFor();
    expect(await findFaults(page, screen.touchPx)).toEqual([]);
  });

  each('a crop card, every value with range, meaning and source', async (page, screen) => {
    await page.goto(`${desk.url}/card/butterhead`);
    await page.getByRole('heading', { name: 'Butterhead lettuce' }).waitFor();
    expect(await page.locator('.card-table tbody tr').count()).toBeGreaterThan(80);
    await check(screen, 'card');
  });

  each('the sowing plan, and what an order more would change', async (page, screen) => {
    await page.goto(`${desk.url}/sowing`);
    await page.locator('.sowing').first().waitFor({ timeout: PLANNING_MS });
    await page.getByLabel('Units').fill('400');
    await page.getByRole('button', { name: 'If this were ordered' }).click();
    await page.getByText('Over the horizon this costs').waitFor({ timeout: PLANNING_MS });
    await check(screen, 'sowing');
    await page.getByRole('button', { name: /: sown$/ }).first().click();
    expect(await findFaults(page, screen.touchPx)).toEqual([]);
    if (screen !== SCREENS[0]) return;
    const form = page.locator('.sown-form');
    await form.getByLabel('Lot').fill('TEST-1');
    await form.getByRole('button', { name: 'Record as sown' }).click();
    await page.getByRole('button', { name: 'TEST-1: came to nothing' }).waitFor({ timeout: PLANNING_MS });
    const { lines } = await (await fetch(`${desk.url}/api/journal`)).json() as JournalAnswer;
    expect(lines.some(({ kind, sentence }) => kind === 'lot-sown' && sentence.includes('TEST-1'))).toBe(true);
  });

  each('the two weeks ahead: a picture and a row of figures for every resource', async (page, screen) => {
    await page.goto(`${desk.url}/week`);
    await page.getByRole('heading', { name: 'The two weeks ahead' }).waitFor();
    const { week } = await (await fetch(`${desk.url}/api/week`)).json() as WeekAnswer;
    expect(await page.locator('.load svg').count()).toBe(week!.resources.length);
    expect(await page.locator('.load-mark').count()).toBe(week!.overruns.length);
    expect(await page.locator('.load-table tbody tr').count()).toBe(14);
    for (const { sentence } of week!.overruns) await page.getByText(sentence).waitFor();
    await check(screen, 'week');
  });

  each('a week that overruns, drawn from an invented answer: marks, what could move, where it would stand', async (page, screen) => {
    await page.route('**/api/week', async (route) => {
      const { week } = await (await route.fetch()).json() as WeekAnswer;
      await route.fulfill({ json: { week: overfull(week!) } });
    });
    await page.goto(`${desk.url}/week`);
    await page.getByText('invented: vehicles overrun').waitFor();
    expect(await page.locator('.load-mark').count()).toBe(1);
    expect(await page.locator('.load-levelled').count()).toBe(2);
    await page.getByRole('heading', { name: 'What could move' }).waitFor();
    expect(await findFaults(page, screen.touchPx)).toEqual([]);
    await page.unroute('**/api/week');
  });

  each('the record', async (page, screen) => {
    await page.goto(`${desk.url}/record`);
    await page.getByText('The chain holds').waitFor();
    await check(screen, 'record');
  });

  each('an address that does not exist, and a basin that does not', async (page, _screen, seen) => {
    await page.goto(`${desk.url}/nowhere`);
    await page.getByText('There is no such page').waitFor();
    await page.goto(`${desk.url}/basin/B999`);
    await page.getByText('No basin "B999" is described in greenhouse.yaml.').waitFor();
    expect(seen.filter((line) => !/status of (404|422)/.test(line))).toEqual([]);
    seen.length = 0;
  });

  each('everything can be reached and used with the keyboard alone', async (page) => {
    await page.goto(`${desk.url}/orders`);
    await page.locator('.order').first().waitFor();
    await page.locator('body').press('Tab');
    const reached: string[] = [];
    for (let number = 0; number < 8; number += 1) {
      reached.push(await page.evaluate(() => `${document.activeElement?.tagName} ${getComputedStyle(document.activeElement!).outlineStyle}`));
      await page.keyboard.press('Tab');
    }
    expect(reached.filter((is) => is === 'A solid')).toHaveLength(7);
    const why = page.getByRole('button', { name: /Where does this come from/ }).first();
    await why.focus();
    await page.keyboard.press('Enter');
    await page.getByRole('dialog').waitFor();
    await page.keyboard.press('Escape');
    await page.getByRole('dialog').waitFor({ state: 'detached' });
  });

  it('prints: the whole day with every ticket, without buttons', async () => {
    const { page } = pages.get('desk')!;
    await page.goto(desk.url);
    await page.locator('.visit').first().waitFor();
    const tickets = async () => await page.locator('.ticket').count();
    const before = await tickets();
    await page.evaluate(() => dispatchEvent(new Event('beforeprint')));
    await page.emulateMedia({ media: 'print' });
    expect(await tickets()).toBeGreaterThan(before);
    expect(await page.locator('.ticket-steps').last().isVisible()).toBe(true);
    expect(await page.locator('button:visible').count()).toBe(0);
    const paper = await page.pdf({ format: 'A4' });
    console.log(`desk: plan and tickets on A4: ${(paper.length / 1000).toFixed(0)} kB, ${paper.toString('latin1').match(/\/Type\s*\/Page\b/g)?.length} pages`);
    await page.emulateMedia({ media: 'screen' });
    await page.evaluate(() => dispatchEvent(new Event('afterprint')));
    expect(await tickets()).toBe(before);
  }, PLANNING_MS);

  it('prints mixing sheets: one a page, in black, without buttons', async () => {
    const { page } = pages.get('desk')!;
    await page.goto(`${desk.url}/water/sheets`);
    await page.locator('.mixing-sheet').first().waitFor();
    const sheets = await page.locator('.mixing-sheet').count();
    await page.evaluate(() => dispatchEvent(new Event('beforeprint')));
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('button:visible').count()).toBe(0);
    expect(await page.locator('.masthead').isVisible()).toBe(false);
    const inks = await page.locator('.mixing-sheet td, .mixing-sheet p, .mixing-sheet h2').evaluateAll((all) => [...new Set(all.map((each) => getComputedStyle(each).color))]);
    expect(inks).toEqual(['rgb(0, 0, 0)']);
    const paper = await page.pdf({ format: 'A4', margin: { top: '12mm', bottom: '12mm', left: '12mm', right: '12mm' } });
    expect(sheets).toBeGreaterThan(5);
    expect(paper.toString('latin1').match(/\/Type\s*\/Page\b/g)).toHaveLength(sheets);
    await page.emulateMedia({ media: 'screen' });
    await page.evaluate(() => dispatchEvent(new Event('afterprint')));
  });
});
