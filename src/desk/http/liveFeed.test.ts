import { EventEmitter } from 'node:events';
import type { ServerResponse } from 'node:http';
import { describe, expect, it } from 'vitest';
import { openLiveFeed } from './liveFeed.ts';

/** A page at the other end of the wire: keeps what it was sent. */
class Page extends EventEmitter {
  heard = '';
  write(text: string) { this.heard += text; return true; }
  end() { this.emit('close'); }
}
const join = (feed: ReturnType<typeof openLiveFeed>, lastId?: string) => {
  const page = new Page();
  feed.attach(page as unknown as ServerResponse, lastId);
  return page;
};

describe('live feed', () => {
  it('sends each message to every open page, with an id', () => {
    const feed = openLiveFeed('run1');
    const [one, two] = [join(feed), join(feed)];
    feed.push('progress', { step: 'mixing the feeds', share: 0.5 });
    for (const page of [one, two]) expect(page.heard).toContain('id: run1-1\nevent: progress\ndata: {"step":"mixing the feeds","share":0.5}\n\n');
    two.end();
    expect(feed.listeners()).toBe(1);
    feed.close();
    expect(feed.listeners()).toBe(0);
  });

  it('gives a page that comes back exactly what it missed', () => {
    const feed = openLiveFeed('run1');
    feed.push('plan', { planId: 'a' });
    feed.push('plan', { planId: 'b' });
    feed.push('plan', { planId: 'c' });
    const page = join(feed, 'run1-1');
    expect(page.heard).not.toContain('"a"');
    expect(page.heard.match(/event: plan/g)).toHaveLength(2);
    expect(join(feed, 'run1-3').heard).not.toContain('event:');
    feed.close();
  });

  it('tells a page to start over when it knows another run, too old an id or nonsense', () => {
    const feed = openLiveFeed('run2');
    for (let number = 0; number < 250; number += 1) feed.push('plan', {});
    for (const id of ['run1-249', 'run2-3', 'run2-900', 'run2-x', '']) expect(join(feed, id).heard, id).toContain('event: start-over');
    expect(join(feed, 'run2-249').heard).not.toContain('start-over');
    feed.close();
  });
});
