import { createHash } from 'node:crypto';
import { rmSync, statSync } from 'node:fs';
import { type Server, connect, createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Holder } from '../sql/greenhouseHold.ts';

const ANSWER_MS = 1_000;

/** A socket that is listened on for as long as this program lives. */
export interface LockSocket {
  readonly close: () => Promise<void>;
}

/** Listens under the folder's name and tells each caller who holds it; undefined where another program listens already. */
export async function listenFor(folder: string, holder: () => Holder): Promise<LockSocket | undefined> {
  const name = socketName(folder);
  const server = await listen(name, holder) ?? await listenOnDeadFile(name, holder);
  return server && { close: () => new Promise((resolve) => { server.close(() => resolve()); }) };
}

/** Asks the program that listens who it is; undefined where it does not answer (it may be busy). */
export function askHolder(folder: string): Promise<Holder | undefined> {
  return new Promise((resolve) => {
    let answer = '';
    const socket = connect(socketName(folder)).setEncoding('utf8').setTimeout(ANSWER_MS, () => socket.destroy());
    socket.on('data', (text: string) => { answer += text; });
    socket.on('error', () => undefined);
    socket.on('close', () => resolve(parseHolder(answer)));
  });
}

/**
 * The name depends on the folder itself (device and inode), not on the way to it. On Linux it is an abstract socket, on Windows a pipe:
 * neither leaves anything behind. Elsewhere it is a socket file.
 */
function socketName(folder: string): string {
  const { dev, ino } = statSync(folder, { bigint: true });
  const key = createHash('sha256').update(`${dev} ${ino}`).digest('hex').slice(0, 32);
  if (process.platform === 'linux') return `\0watermeadow-${key}`;
  return process.platform === 'win32' ? `\\\\.\\pipe\\watermeadow-${key}` : join(tmpdir(), `watermeadow-${key}.sock`);
}

function listen(name: string, holder: () => Holder): Promise<Server | undefined> {
  return new Promise((resolve, reject) => {
    const server = createServer((socket) => {
      socket.on('error', () => undefined);
      socket.end(JSON.stringify(holder()));
    });
    server.once('error', (error: NodeJS.ErrnoException) => (error.code === 'EADDRINUSE' ? resolve(undefined) : reject(error)));
    server.listen(name, () => {
      server.unref();
      resolve(server);
    });
  });
}

/** Where sockets are files, a killed program leaves one behind that nobody answers on. */
async function listenOnDeadFile(name: string, holder: () => Holder): Promise<Server | undefined> {
  if (process.platform === 'linux' || process.platform === 'win32' || await isAnswered(name)) return undefined;
  rmSync(name, { force: true });
  return listen(name, holder);
}

function isAnswered(name: string): Promise<boolean> {
  return new Promise((resolve) => {
    const socket = connect(name);
    socket.on('connect', () => { socket.destroy(); resolve(true); });
    socket.on('error', () => resolve(false));
  });
}

function parseHolder(answer: string): Holder | undefined {
  try {
    return JSON.parse(answer) as Holder;
  } catch {
    return undefined;
  }
}
