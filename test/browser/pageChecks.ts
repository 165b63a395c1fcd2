import type { Page } from 'playwright-core';

/** What is wrong with the page that is open, in words; empty when nothing is. `touchPx`: smallest height of a control, 0 for no rule. */
export function findFaults(page: Page, touchPx: number): Promise<string[]> {
  return page.evaluate(inspect, touchPx);
}

/**
 * Runs in the browser. Own checks of what an accessibility audit asks first: names, labels, headings, ids, contrast (WCAG 2.2,
 * 1.4.3: 4.5 to 1, large text 3 to 1; its relative luminance formula), size of controls, and that nothing is wider than the page.
 */
function inspect(touchPx: number): string[] {
  const faults: string[] = [];
  const shown = (element: Element) => element.getClientRects().length > 0 && getComputedStyle(element).visibility !== 'hidden';
  const words = (element: Element) => `<${element.tagName.toLowerCase()}> "${(element.textContent ?? '').trim().slice(0, 40)}"`;

  if (document.documentElement.lang === '') faults.push('the document names no language');
  if (document.title === '') faults.push('the document has no title');
  const wide = document.documentElement.scrollWidth - document.documentElement.clientWidth;
  if (wide > 0) {
    const scrolls = (element: Element) => { for (let is = element.parentElement; is !== null; is = is.parentElement) if (getComputedStyle(is).overflowX !== 'visible') return true; return false; };
    const outside = [...document.body.querySelectorAll('*')].filter((element) => shown(element) && !scrolls(element) && element.getBoundingClientRect().right > document.documentElement.clientWidth + 0.5);
    faults.push(`the page is ${wide} px wider than the screen: ${outside.slice(-3).map((element) => `${words(element)} in .${element.parentElement?.className}`).join(', ')}`);
  }

  const headings = [...document.querySelectorAll('h1,h2,h3,h4')].filter(shown);
  if (headings.filter((heading) => heading.tagName === 'H1').length !== 1) faults.push('the page has not exactly one first heading');
  headings.reduce((before, heading) => {
    const level = Number(heading.tagName[1]);
    if (level > before + 1) faults.push(`heading ${words(heading)} skips a level`);
    return level;
  }, 0);

  const ids = [...document.querySelectorAll('[id]')].map((element) => element.id);
  for (const id of new Set(ids.filter((id, index) => ids.indexOf(id) !== index))) faults.push(`id ${id} stands twice`);

  for (const control of document.querySelectorAll('button,a[href],input,select,textarea,[role=img],[role=group],dialog')) {
    if (!shown(control)) continue;
    const labels = 'labels' in control ? [...(control as HTMLInputElement).labels ?? []].map((label) => label.textContent).join(' ') : '';
    const by = (control.getAttribute('aria-labelledby') ?? '').split(' ').map((id) => document.getElementById(id)?.textContent ?? '').join(' ');
    const text = control.matches('button,a') ? control.textContent ?? '' : '';
    const name = [control.getAttribute('aria-label'), by, labels, text].find((is) => is !== null && is !== undefined && is.trim() !== '');
    if (name === undefined) faults.push(`${words(control)} has no name`);
  }

  if (touchPx > 0) {
    for (const control of document.querySelectorAll('button,select,input,nav a,a.button')) {
      const box = control.getBoundingClientRect();
      if (shown(control) && (box.height < touchPx - 0.5 || box.width < touchPx - 0.5)) faults.push(`${words(control)} is only ${Math.round(box.width)} x ${Math.round(box.height)} px`);
    }
  }

  const channels = (colour: string) => {
    const numbers = colour.match(/[\d.]+/g)?.map(Number) ?? [];
    return { red: numbers[0] ?? 0, green: numbers[1] ?? 0, blue: numbers[2] ?? 0, alpha: colour === 'transparent' ? 0 : numbers[3] ?? 1 };
  };
  const luminance = (colour: { red: number; green: number; blue: number }) => {
    const linear = [colour.red, colour.green, colour.blue].map((value) => value / 255).map((value) => (value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4));
    return 0.2126 * linear[0]! + 0.7152 * linear[1]! + 0.0722 * linear[2]!;
  };
  const ground = (element: Element) => {
    for (let is: Element | null = element; is !== null; is = is.parentElement) {
      const colour = channels(getComputedStyle(is).backgroundColor);
      if (colour.alpha > 0.5) return colour;
    }
    return { red: 255, green: 255, blue: 255, alpha: 1 };
  };
  const seen = new Set<string>();
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) {
    const element = walker.currentNode.parentElement;
    if (element === null || (walker.currentNode.textContent ?? '').trim() === '' || !shown(element) || element.closest(':disabled,option,title,.only-read,.dim') !== null) continue;
    const style = getComputedStyle(element);
    const inDrawing = element.closest('svg') !== null;
    const front = channels(inDrawing ? style.fill : style.color);
    const [light, dark] = [luminance(front), luminance(ground(element))].sort((a, b) => b - a);
    const ratio = (light! + 0.05) / (dark! + 0.05);
    const size = Number.parseFloat(style.fontSize);
    const large = size >= 24 || (size >= 18.66 && Number(style.fontWeight) >= 700);
    const fault = `${words(element)} has a contrast of only ${ratio.toFixed(1)} to 1`;
    if (ratio < (large ? 3 : 4.5) && !seen.has(fault)) { seen.add(fault); faults.push(fault); }
  }
  return faults;
}
