import { describeWaters } from '../../science/chemistry/describeWaters.ts';
import { accepted } from '../../science/refusal.ts';
import type { CliCommand } from '../cliCommand.ts';
import { readJsonFile } from '../readJsonFile.ts';

export const waterCommand: CliCommand = {
  name: 'water', argument: 'FILE', options: [],
  summary: 'Speciate the waters of a JSON file: pH, ionic strength, alkalinity, conductivity, saturation indices.',
  run: async (path) => {
    const input = readJsonFile(path);
    if (!input.ok) return input;
    const waters = describeWaters(input.value);
    return waters.ok ? accepted({ json: waters.value, sheet: JSON.stringify(waters.value, undefined, 2) }, waters.warnings) : waters;
  },
};
