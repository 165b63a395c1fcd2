import { join } from 'node:path';

/** Files that are kept of a scan: its picture (gzip) and its thinned cloud. */
export const pictureFiles = (folder: string, scan: string): { readonly picture: string; readonly points: string } =>
  ({ picture: join(folder, `${scan}.field.gz`), points: join(folder, `${scan}.points`) });

/** Where a greenhouse folder keeps them. */
export const picturesFolder = (greenhouseFolder: string): string => join(greenhouseFolder, '.watermeadow', 'pictures');

/** Where clouds of a bucket lie while they are worked on. */
export const fetchedFolder = (greenhouseFolder: string): string => join(greenhouseFolder, '.watermeadow', 'clouds');
