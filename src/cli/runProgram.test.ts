import { describe, expect, it } from 'vitest';
import { accepted, refused } from '../science/refusal.ts';
import type { CliCommand } from './cliCommand.ts';
import { runProgram } from './runProgram.ts';

const command = (run: CliCommand['run']): CliCommand => ({ name: 'look', argument: 'DIR', summary: 'Look at a folder.', options: [{ flags: '--at <time>', summary: 'When.' }], run });
async function tryOut(args: readonly string[], run: CliCommand['run'] = async (argument) => accepted({ json: { argument }, sheet: `saw ${argument}` })) {
  let out = '', err = '';
  const status = await runProgram([command(run)], args, { writeOut: (text) => { out += text; }, writeErr: (text) => { err += text; }, nowAt: () => '2026-11-25T05:00:00Z', stopAsked: new Promise(() => undefined) });
  return { status, out, err };
}

describe('runProgram', () => {
  it('prints a sheet, or exactly one JSON value', async () => {
    expect(await tryOut(['look', 'here'])).toEqual({ status: 0, out: 'saw here\n', err: '' });
    expect(await tryOut(['look', 'here', '--json'])).toEqual({ status: 0, out: '{"argument":"here"}\n', err: '' });
  });

  it('ends with 1 and the list where something is refused, a mistyped command line included', async () => {
    const run = async () => refused([{ code: 'value-missing', path: 'orders.csv:2:5', message: 'units is missing.', severity: 'error' }]);
    const json = await tryOut(['look', 'here', '--json'], run);
    expect([json.status, JSON.parse(json.out)]).toMatchObject([1, { refusals: [{ code: 'value-missing', path: 'orders.csv:2:5' }] }]);
    expect((await tryOut(['look', 'here'], run)).err).toContain('orders.csv:2:5  (value-missing)');
    for (const args of [['lok', 'here', '--json'], ['look', '--json'], ['look', 'here', '--colour', '--json']]) {
      const wrong = await tryOut(args);
      expect([wrong.status, JSON.parse(wrong.out)], args.join(' ')).toMatchObject([1, { refusals: [{ code: 'usage' }] }]);
    }
  });

  it('ends with 2 and no stack trace where something breaks', async () => {
    const broken = await tryOut(['look', 'here', '--json'], async () => { throw new Error('boom\n    at secret.ts:1:1'); });
    expect([broken.status, JSON.parse(broken.out)]).toMatchObject([2, { fault: { fault: 'bug', retryHelps: false } }]);
    expect(broken.out + broken.err).not.toContain('secret.ts');
  });
});
