import { readFileSync, statSync } from 'node:fs';

/** Whom the database runs as and to whom its files belong. */
export interface Owner {
  readonly uid: number;
  readonly gid: number;
}

/** By old custom nobody's number: no person and hardly a program has it. */
const NOBODY: Owner = { uid: 65_534, gid: 65_534 };

/**
 * PostgreSQL refuses to run as root. When this program does, the database runs as whoever owns its files already, else as the owner
 * of the greenhouse folder, else as the system's `postgres`, else as nobody. Undefined: no change is needed.
 */
export function chooseOwner(folder: string, databaseFolder: string): Owner | undefined {
  if (process.getuid?.() !== 0) return undefined;
  return ownerOf(databaseFolder) ?? ownerOf(folder) ?? userNamed('postgres') ?? NOBODY;
}

function ownerOf(path: string): Owner | undefined {
  const stats = statSync(path, { throwIfNoEntry: false });
  return stats === undefined || stats.uid === 0 ? undefined : { uid: stats.uid, gid: stats.gid };
}

function userNamed(name: string): Owner | undefined {
  try {
    const [, , uid, gid] = readFileSync('/etc/passwd', 'utf8').split('\n').find((line) => line.startsWith(`${name}:`))?.split(':') ?? [];
    return uid === undefined || gid === undefined ? undefined : { uid: Number(uid), gid: Number(gid) };
  } catch {
    return undefined;
  }
}
