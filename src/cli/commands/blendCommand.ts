import { loadLinearSolver } from '../../planning/solver/loadLinearSolver.ts';
import { blendFile } from '../../planning/water/blendFile.ts';
import { accepted } from '../../science/refusal.ts';
import type { CliCommand } from '../cliCommand.ts';
import { readJsonFile } from '../readJsonFile.ts';

export const blendCommand: CliCommand = {
  name: 'blend', argument: 'FILE', options: [],
  summary: 'Mix sources into basins at least cost, proven: the linear part of the feeds, from a JSON file.',
  run: async (path) => {
    const input = readJsonFile(path);
    if (!input.ok) return input;
    const blend = blendFile(input.value, await loadLinearSolver());
    return blend.ok ? accepted({ json: blend.value, sheet: JSON.stringify(blend.value, undefined, 2) }, blend.warnings) : blend;
  },
};
