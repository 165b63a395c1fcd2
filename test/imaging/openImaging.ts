import { keepImaging, type Imaging } from '../../src/desk/imaging/keepImaging.ts';
import { openLiveFeed } from '../../src/desk/http/liveFeed.ts';
import type { LiveMessages } from '../../src/desk/contract.ts';
import { cloudFolder } from '../../src/store/scan/cloudFolder.ts';
import type { CloudPlace } from '../../src/store/scan/cloudPlace.ts';
import { picturesFolder } from '../../src/store/scan/pictureFiles.ts';
import { openSession, type GreenhouseSession } from '../../src/store/session/openSession.ts';

export interface OpenImaging {
  readonly session: GreenhouseSession;
  readonly imaging: Imaging;
  /** What was told of clouds, in order. */
  readonly told: readonly LiveMessages['imaging'][];
  readonly errors: readonly unknown[];
  readonly close: () => Promise<void>;
}

/** A greenhouse folder with its store and the work on its scans, without desk and planning. */
export async function openImaging(folder: string, nowAt: string, onTold: (message: LiveMessages['imaging']) => void = () => undefined, places: readonly CloudPlace[] = []): Promise<OpenImaging> {
  const opened = await openSession({ folder, program: 'imaging', nowAt });
  if (!opened.ok) throw new Error(JSON.stringify(opened.refusals.slice(0, 3)));
  const session = opened.value, told: LiveMessages['imaging'][] = [], errors: unknown[] = [];
  const feed = openLiveFeed('test');
  const live = { ...feed, push: ((kind, message) => {
    if (kind !== 'imaging') return;
    told.push(message as LiveMessages['imaging']);
    onTold(message as LiveMessages['imaging']);
  }) as typeof feed.push };
  const imaging = keepImaging({
    greenhouse: { state: session.state, allEvents: session.allEvents, recordScan: (command, at) => session.act(command, at) },
    queue: session.store.scans, places: [cloudFolder(folder), ...places], pictures: picturesFolder(folder), live, newestPlan: () => undefined, onScans: () => undefined, nowAt: () => nowAt, report: (error) => errors.push(error),
  });
  return { session, imaging, told, errors, close: async () => { await imaging.close(); feed.close(); await session.close(); } };
}
