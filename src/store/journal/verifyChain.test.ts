import { describe, expect, it } from 'vitest';
import { type EventRow, FIRST_PREVIOUS_HASH, hashEvent } from './hashEvent.ts';
import { walkChain } from './verifyChain.ts';

const chain = (length: number): EventRow[] => {
  const rows: EventRow[] = [];
  for (let sequence = 1; sequence <= length; sequence += 1) {
    const row = { kind: 'k', happenedAt: '2026-01-01T00:00:00Z', recordedBy: 'x', bodyText: `{"n":${sequence}}`, id: `id-${sequence}`, sequence, recordedAt: 'r', previousHash: rows.at(-1)?.hash ?? FIRST_PREVIOUS_HASH };
    rows.push({ ...row, hash: hashEvent(row) });
  }
  return rows;
};
const breaksOf = (rows: readonly EventRow[]) => {
  const { breaksOf: check } = walkChain();
  return rows.flatMap(check).map(({ sequence, what }) => `${what} ${sequence}`);
};

describe('walk along the chain', () => {
  it('finds nothing on a chain that holds', () => {
    expect(breaksOf(chain(20))).toEqual([]);
  });

  it('finds a changed event, wherever', () => {
    const rows = chain(5);
    rows[2] = { ...rows[2]!, bodyText: '{"n":33}' };
    expect(breaksOf(rows)).toEqual(['content 3']);
  });

  it('finds an event that was changed together with its hash', () => {
    const rows = chain(5);
    const changed = { ...rows[2]!, recordedBy: 'y' };
    rows[2] = { ...changed, hash: hashEvent(changed) };
    expect(breaksOf(rows)).toEqual(['link 4']);
  });

  it('finds an event that was taken out, at the start too', () => {
    expect(breaksOf(chain(5).toSpliced(2, 1))).toEqual(['missing 3', 'link 4']);
    expect(breaksOf(chain(3).slice(1))).toEqual(['missing 1', 'link 2']);
  });

  it('finds two events that changed places', () => {
    const [a, b, c] = chain(3);
    expect(breaksOf([b!, a!, c!])).toContain('link 2');
  });
});
