import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { readGreenhouseFolder } from '../../src/greenhouse/files/readGreenhouseFolder.ts';
import { startRandom } from '../../src/science/seededRandom.ts';
import { openSession } from '../../src/store/session/openSession.ts';
import { mutateText } from './mutateText.ts';
import { shortDemo } from './shortDemo.ts';

const MUTATIONS = 520;
const files = shortDemo();
const paths = Object.keys(files).sort();
const PLACE = /^(greenhouse\.yaml|fertilisers\.yaml|crops\/[\w.-]*|orders\.csv|lots\.csv|sowings\.csv|readings\.csv|samples\.csv|water-analyses\.csv|weather\.(csv|epw))(:\d+:\d+)?$/;

/** A folder with one file damaged; the same number gives the same damage. */
function damaged(number: number): { readonly path: string; readonly how: string; readonly files: Record<string, string> } {
  const random = startRandom(0xf00d + number);
  const path = paths[number % paths.length]!;
  const { text, how } = mutateText(files[path]!, random);
  return { path, how, files: { ...files, [path]: text } };
}

describe('a damaged greenhouse folder', () => {
  const refusedOnes: number[] = [];

  it(`is accepted or refused with a place, over ${MUTATIONS} seeded damages`, () => {
    expect(readGreenhouseFolder(files).ok).toBe(true);
    const counts = { accepted: 0, refused: 0, refusals: 0 };
    for (let number = 0; number < MUTATIONS; number += 1) {
      const { path, how, files: broken } = damaged(number);
      const outcome = readGreenhouseFolder(broken);
      const label = `damage ${number}: ${path}, ${how}`;
      if (outcome.ok) { counts.accepted += 1; continue; }
      counts.refused += 1;
      refusedOnes.push(number);
      counts.refusals += outcome.refusals.length;
      expect(outcome.refusals.some((each) => each.severity === 'error'), label).toBe(true);
      for (const refusal of outcome.refusals) {
        expect(refusal.path, label).toMatch(PLACE);
        expect(refusal.message, label).toMatch(/^\S.{8,}/s);
        expect(refusal.message, label).not.toMatch(/undefined|\[object|    at |node_modules/);
      }
    }
    console.log(`fuzz: ${MUTATIONS} damages, ${counts.refused} refused with ${counts.refusals} places, ${counts.accepted} harmless`);
    expect(counts.refused).toBeGreaterThan(MUTATIONS / 3);
  }, 900_000);

  describe('on disk', () => {
    const folder = mkdtempSync(join(tmpdir(), 'watermeadow-fuzz-'));
    afterAll(() => rmSync(folder, { recursive: true, force: true }));
    const write = (texts: Readonly<Record<string, string>>) => {
      for (const [path, text] of Object.entries(texts)) { mkdirSync(dirname(join(folder, path)), { recursive: true }); writeFileSync(join(folder, path), text); }
    };
    const open = () => openSession({ folder, program: 'fuzz', nowAt: '2026-03-03T06:00:00.000Z' });
    const headOf = async () => {
      const session = await open();
      if (!session.ok) throw new Error(session.refusals[0]?.message);
      const { head, breaks } = await session.value.checkChain();
      await session.value.close();
      expect(breaks).toEqual([]);
      return { head, imported: session.value.imported };
    };

    it('changes nothing in the journal, and the whole folder read again adds nothing', async () => {
      write(files);
      const first = await headOf();
      expect(first.imported.events).toBeGreaterThan(300);
      const tried = refusedOnes.filter((_, i) => i % 12 === 0);
      for (const number of tried) {
        write(damaged(number).files);
        expect((await open()).ok, `damage ${number}`).toBe(false);
      }
      write(files);
      const last = await headOf();
      expect(last.head).toEqual(first.head);
      expect(last.imported).toEqual({ events: 0, readings: 0 });
      console.log(`fuzz: ${tried.length} refused folders on disk left the journal at entry ${last.head.sequence}`);
    }, 900_000);
  });
});
