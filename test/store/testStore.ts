import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type StoreSettings, openStore } from '../../src/store/openStore.ts';
import type { Store } from '../../src/store/store.ts';

/** A store in a temporary folder, for one test. */
export interface TestStore {
  readonly folder: string;
  /** The store as opened last. */
  readonly store: () => Store;
  /** Closes it and opens it again. */
  readonly reopen: () => Promise<Store>;
  /** Closes it and takes everything away. */
  readonly remove: () => Promise<void>;
}

/** Opens a store in a fresh temporary folder. Call `remove` when the test is over. */
export async function testStore(settings: Partial<StoreSettings> = {}): Promise<TestStore> {
  const folder = settings.folder ?? mkdtempSync(join(tmpdir(), 'watermeadow-store-'));
  const open = () => mustOpen({ greenhouse: 'test', ...settings, folder });
  let store = await open();
  return {
    folder,
    store: () => store,
    reopen: async () => {
      await store.close();
      store = await open();
      return store;
    },
    remove: async () => {
      await store.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** Opens a store that must not be refused. */
export async function mustOpen(settings: StoreSettings): Promise<Store> {
  const opened = await openStore(settings);
  if (!opened.ok) throw new Error(`not opened: ${JSON.stringify(opened.refusals)}`);
  return opened.value;
}
