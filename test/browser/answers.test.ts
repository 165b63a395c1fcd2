import { request } from 'node:http';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { RefusedAnswer } from '../../src/desk/contract.ts';
import type { RunningDesk } from '../../src/desk/startDesk.ts';
import { DEMO_MORNING, makeDemoDesk, type DemoDesk } from './openDemoDesk.ts';

interface Heard { readonly status: number; readonly headers: Readonly<Record<string, unknown>>; readonly text: string }

describe('what the desk answers to requests that are wrong', () => {
  let demo: DemoDesk;
  let desk: RunningDesk;
  beforeAll(async () => {
    demo = await makeDemoDesk();
    desk = await demo.open(DEMO_MORNING);
  }, 240_000);
  afterAll(async () => {
    await desk?.close();
    demo?.remove();
  });

  const send = (method: string, path: string, headers: Record<string, string> = {}, body?: string) => new Promise<Heard>((resolve, reject) => {
    const sent = request(new URL(path, desk.url), { method, headers: { ...(body === undefined ? {} : { 'content-type': 'application/json' }), ...headers } }, (answer) => {
      let text = '';
      answer.on('data', (part) => { text += String(part); });
      answer.on('end', () => resolve({ status: answer.statusCode ?? 0, headers: answer.headers, text }));
    });
    sent.on('error', reject);
    sent.end(body);
  });
  const codes = ({ text }: Heard) => (JSON.parse(text) as RefusedAnswer).refusals.map((is) => `${is.code} ${is.path}`);
  const approve = (body: unknown, headers?: Record<string, string>) => send('POST', '/api/plan/approve', headers, typeof body === 'string' ? body : JSON.stringify(body));

  it.each([
    ['nothing asked for', {}, ['value-missing body.planId', 'value-missing body.by']],
    ['a key that is not known, and one of the wrong kind', { planId: 7, by: 'mirel', force: true }, ['value-not-allowed body.planId', 'key-unknown body']],
    ['a person that nobody knows', { planId: 'x', by: 'nobody' }, ['reference-unknown body.by']],
    ['a person whose role does not include it', { planId: 'x', by: 'tove' }, ['not-permitted body.by']],
    ['a plan that is not the newest', { planId: 'x', by: 'mirel' }, ['state-conflict body.planId']],
    ['a body that is not JSON', '{"planId":', ['syntax request']],
  ])('refuses %s with every reason', async (_what, body, expected) => {
    const heard = await approve(body);
    expect([heard.status, codes(heard)]).toEqual([422, expected]);
    expect(heard.text).not.toMatch(/\.ts|node_modules|at \w+ \(/);
  });

  it.each([
    ['a stop of a plan that is not approved', '/api/stops/x/V/0', { result: 'done', by: 'tove' }, ['state-conflict address.planId']],
    ['a stop number that is none', '/api/stops/x/V/-1', { result: 'done', by: 'tove' }, ['value-out-of-range address.stop']],
    ['a failure without a reason', '/api/stops/x/V/0', { result: 'failed', by: 'tove', reason: ' ' }, ['value-out-of-range body.reason']],
    ['a volume below nothing', '/api/stops/x/V/0', { result: 'done', by: 'tove', actual: { volumeL: -1 } }, ['value-out-of-range body.actual.volumeL']],
  ])('refuses %s', async (_what, path, body, expected) => {
    const heard = await send('POST', path, {}, JSON.stringify(body));
    expect([heard.status, codes(heard)]).toEqual([422, expected]);
  });

  it('answers only to its own address, and takes changes only from its own pages', async () => {
    expect(codes(await send('GET', '/api/plan', { host: 'elsewhere.example' }))).toEqual(['not-permitted header.host']);
    expect(codes(await approve({ planId: 'x', by: 'mirel' }, { origin: 'http://elsewhere.example' }))).toEqual(['not-permitted header.origin']);
    expect(codes(await approve({ planId: 'x', by: 'mirel' }, { origin: new URL(desk.url).origin }))).toEqual(['state-conflict body.planId']);
  });

  it('listens on this machine only', () => expect(new URL(desk.url).hostname).toBe('127.0.0.1'));

  it('refuses bodies that are too large or of another kind, and addresses that are none', async () => {
    expect((await approve(JSON.stringify({ planId: 'x'.repeat(70_000), by: 'mirel' }))).status).toBe(413);
    expect((await send('POST', '/api/plan/approve', { 'content-type': 'text/xml' }, '<a/>')).status).toBe(415);
    expect([(await send('GET', '/api/nothing')).status, (await send('GET', '/assets/../../package.json')).status, (await send('GET', '/..%2f..%2fpackage.json')).status]).toEqual([404, 404, 404]);
  });

  it('sends its security headers with everything, and never says what it runs on', async () => {
    for (const path of ['/', '/api/plan', '/api/nothing']) {
      const { headers } = await send('GET', path);
      expect(headers['content-security-policy']).toMatch(/^default-src 'none'; script-src 'self'/);
      expect([headers['x-content-type-options'], headers['x-frame-options'], headers['referrer-policy'], headers['x-powered-by']]).toEqual(['nosniff', 'DENY', 'no-referrer', undefined]);
    }
  });

  it('packs long answers for a thin connection', async () => {
    const heard = await send('GET', '/api/floor', { 'accept-encoding': 'gzip' });
    expect(heard.headers['content-encoding']).toBe('gzip');
  });

  it('tells a page that comes back with an id of another run to start over', async () => {
    const heard = await new Promise<string>((resolve) => {
      const sent = request(new URL('/api/live', desk.url), { headers: { 'last-event-id': 'earlier-7' } }, (answer) => {
        let text = '';
        answer.on('data', (part) => { text += String(part); if (text.includes('event: start-over')) { sent.destroy(); resolve(text); } });
      });
      sent.end();
    });
    expect(heard).toContain('retry: 2000');
  });
});
