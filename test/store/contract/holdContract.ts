import { describe, expect, it } from 'vitest';
import type { Refusal } from '../../../src/science/refusal.ts';
import { openStore } from '../../../src/store/openStore.ts';
import { mustOpen } from '../testStore.ts';
import { type StoreBench, draft, newGreenhouse } from './storeBench.ts';

/** One program at a time. */
export function holdContract(bench: () => StoreBench): void {
  describe('hold', () => {
    it('refuses a second program and names the first and where it answers; lets it in once the first is gone', async () => {
      const settings = bench().settings(newGreenhouse());
      const first = await mustOpen({ ...settings, program: 'the morning desk' });
      expect((await refusalOf(settings)).value).toMatchObject({ pid: process.pid, program: 'the morning desk' });
      await first.announceAddress('http://127.0.0.1:4711/');
      const refusal = await refusalOf(settings);
      expect(refusal).toMatchObject({ code: 'folder-in-use', severity: 'error', value: { pid: process.pid, program: 'the morning desk', address: 'http://127.0.0.1:4711/' } });
      expect(refusal.message).toContain(`the morning desk (process ${process.pid}`);
      expect(refusal.message).toContain('at http://127.0.0.1:4711/');
      await first.journal.append([draft(1)]);
      await first.close();
      await first.close();
      const second = await mustOpen(settings);
      expect((await second.journal.head()).sequence).toBe(1);
      await second.close();
    });
  });
}

async function refusalOf(settings: Parameters<typeof openStore>[0]): Promise<Refusal> {
  const opened = await openStore(settings);
  if (!opened.ok) return opened.refusals[0]!;
  await opened.value.close();
  throw new Error('a second program was let in');
}
