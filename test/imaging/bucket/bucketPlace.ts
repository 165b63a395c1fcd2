import { bucketKeys } from '../../../src/store/scan/bucket/bucketKeys.ts';
import { cloudBucket } from '../../../src/store/scan/bucket/cloudBucket.ts';
import type { CloudPlace } from '../../../src/store/scan/cloudPlace.ts';
import { fetchedFolder } from '../../../src/store/scan/pictureFiles.ts';

/** The bucket of the tests as a place of clouds, with keys from the environment. */
export const bucketPlace = (greenhouseFolder: string, endpoint: string): CloudPlace =>
  cloudBucket({ settings: { endpoint, name: 'clouds', prefix: '', region: 'us-east-1', addressing: 'path', lookEveryS: 1 }, keys: bucketKeys(process.env), folder: fetchedFolder(greenhouseFolder), patience: { tries: 2, firstPauseMs: 5, silenceMs: 2000 } });
