import { describe, expect, it } from 'vitest';
import { foldEvents } from '../../src/greenhouse/evolve.ts';
import type { GreenhouseEvent } from '../../src/greenhouse/events.ts';
import { readGreenhouseFolder } from '../../src/greenhouse/files/readGreenhouseFolder.ts';
import { importFolder } from '../../src/greenhouse/importFolder.ts';
import { canonicalJson } from '../../src/store/journal/canonicalJson.ts';
import { mutateFiles } from './mutateFiles.ts';
import { shortDemo } from './shortDemo.ts';

const MUTATIONS = 60;
const NOW = '2026-03-03T05:00:00Z';

describe('a folder that is accepted', () => {
  it(`can be stored and folded whatever was done to it: ${MUTATIONS} seeded mutations of files, keys, tokens and line ends`, () => {
    const demo = shortDemo(30);
    const asWritten = readGreenhouseFolder(demo);
    expect(asWritten.ok).toBe(true);
    let accepted = 0;
    for (let seed = 1; seed <= MUTATIONS; seed += 1) {
      const { files, what } = mutateFiles(demo, seed);
      const outcome = readGreenhouseFolder(files);
      if (!outcome.ok) { expect(outcome.refusals.some((each) => each.severity === 'error'), what).toBe(true); continue; }
      accepted += 1;
      const drafts = importFolder(outcome.value, [], NOW);
      for (const draft of drafts) expect(() => canonicalJson(draft.body), what).not.toThrow();
      const events = drafts.map((draft, i) => ({ ...draft, id: `e${i + 1}`, sequence: i + 1, recordedAt: NOW, previousHash: '', hash: '' })) as unknown as GreenhouseEvent[];
      expect(() => foldEvents(events), what).not.toThrow();
    }
    console.log(`fuzz: ${MUTATIONS} mutations, ${MUTATIONS - accepted} refused, ${accepted} accepted and storable`);
    expect(accepted).toBeGreaterThan(0);
  });
});
