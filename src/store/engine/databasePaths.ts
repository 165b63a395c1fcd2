import { join } from 'node:path';

/** Where everything of the embedded database lies. */
export interface DatabasePaths {
  /** FOLDER/.watermeadow/postgres, owned by whom the database runs as. */
  readonly home: string;
  readonly cluster: string;
  /** Where a cluster is made before it gets its name. */
  readonly fresh: string;
  readonly password: string;
  readonly log: string;
  readonly postmasterPid: string;
}

export function databasePaths(stateFolder: string): DatabasePaths {
  const home = join(stateFolder, 'postgres');
  const cluster = join(home, 'cluster');
  return {
    home, cluster, fresh: join(home, 'fresh'), password: join(home, 'password'), log: join(home, 'postgres.log'),
    postmasterPid: join(cluster, 'postmaster.pid'),
  };
}

/**
 * The path by which the database itself knows the folder that it was started in. On Linux it goes through the process, so that the
 * folders above may be closed to it (a greenhouse in a private home, the database running as another user).
 */
export const ownView = (folder: string): string => (process.platform === 'linux' ? '/proc/self/cwd' : folder);
