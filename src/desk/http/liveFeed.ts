import type { ServerResponse } from 'node:http';
import type { LiveKind, LiveMessages } from '../contract.ts';

const KEPT = 200;
const HEARTBEAT_MS = 15_000;

interface Sent { readonly number: number; readonly text: string }

/** Pushes messages to every open page (server-sent events). A page that was away gets what it missed, or is told to start over. */
export interface LiveFeed {
  readonly push: <K extends LiveKind>(kind: K, message: LiveMessages[K]) => void;
  /** Hands a response over to the feed; `lastId` is what the page heard last. */
  readonly attach: (response: ServerResponse, lastId: string | undefined) => void;
  readonly listeners: () => number;
  readonly close: () => void;
}

/** `run` tells this run of the desk from the ones before, so that an old id is never taken for one of ours. */
export function openLiveFeed(run: string): LiveFeed {
  const pages = new Set<ServerResponse>();
  const kept: Sent[] = [];
  let number = 0;
  const heartbeat = setInterval(() => pages.forEach((page) => page.write(': still here\n\n')), HEARTBEAT_MS);
  heartbeat.unref();

  const write = (kind: LiveKind, message: unknown): Sent => {
    number += 1;
    return { number, text: `id: ${run}-${number}\nevent: ${kind}\ndata: ${JSON.stringify(message)}\n\n` };
  };

  return {
    push(kind, message) {
      const sent = write(kind, message);
      kept.push(sent);
      if (kept.length > KEPT) kept.shift();
      pages.forEach((page) => page.write(sent.text));
    },
    attach(response, lastId) {
      response.write('retry: 2000\n\n');
      missedSince(lastId).forEach((text) => response.write(text));
      pages.add(response);
      response.on('close', () => pages.delete(response));
    },
    listeners: () => pages.size,
    close() {
      clearInterval(heartbeat);
      pages.forEach((page) => page.end());
      pages.clear();
    },
  };

  function missedSince(lastId: string | undefined): string[] {
    if (lastId === undefined) return [];
    const heard = lastId.startsWith(`${run}-`) ? Number(lastId.slice(run.length + 1)) : Number.NaN;
    const oldest = kept[0]?.number ?? number + 1;
    if (!Number.isInteger(heard) || heard > number || heard < oldest - 1) return [`event: start-over\ndata: {}\n\n`];
    return kept.filter((sent) => sent.number > heard).map((sent) => sent.text);
  }
}
