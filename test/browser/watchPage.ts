import type { Page } from 'playwright-core';

/** Writes down everything that a page should never do: errors on its console, broken scripts, requests to anybody but the desk. */
export function watchPage(page: Page, url: string): string[] {
  const seen: string[] = [];
  page.on('console', (message) => { if (message.type() === 'error' || message.type() === 'warning') seen.push(`console: ${message.text()}`); });
  page.on('pageerror', (error) => seen.push(`script: ${error.message}`));
  page.on('request', (request) => { if (new URL(request.url()).origin !== new URL(url).origin && !request.url().startsWith('data:')) seen.push(`request to ${request.url()}`); });
  page.on('response', (response) => { if (response.status() >= 500) seen.push(`${response.status()} from ${response.url()}`); });
  return seen;
}
