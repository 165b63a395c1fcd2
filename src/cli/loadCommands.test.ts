import { describe, expect, it } from 'vitest';
import { loadCommands } from './loadCommands.ts';

describe('loadCommands', () => {
  it('loads the one that is asked for, and all for anything else', async () => {
    const names = (await loadCommands(undefined)).map(({ name }) => name);
    expect(names.length).toBeGreaterThan(9);
    for (const name of names) expect((await loadCommands(name)).map((command) => command.name)).toEqual([name]);
    expect((await loadCommands('toString')).length).toBe(names.length);
  });
});
