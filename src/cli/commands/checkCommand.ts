import { readGreenhouseFolder } from '../../greenhouse/files/readGreenhouseFolder.ts';
import { basinsOf } from '../../greenhouse/basinsOf.ts';
import { accepted, type Outcome } from '../../science/refusal.ts';
import { readFolder } from '../../store/session/readFolder.ts';
import type { CliCommand, CommandAnswer } from '../cliCommand.ts';

export const checkCommand: CliCommand = {
  name: 'check', argument: 'DIR', options: [],
  summary: 'List everything that is wrong in a greenhouse folder, with file, line, column and how to mend it.',
  run: async (folder) => checkFolder(folder),
};

function checkFolder(path: string): Outcome<CommandAnswer> {
  const texts = readFolder(path);
  if (!texts.ok) return texts;
  const read = readGreenhouseFolder(texts.value);
  if (!read.ok) return read;
  const { file, crops, lots, orders, readings, samples, analyses } = read.value;
  const counts = { basins: basinsOf(file).length, crops: crops.length, lots: new Set(lots.map((row) => row.lot)).size, orderLines: orders.length, readings: readings.length, samples: samples.length, analyses: analyses.length };
  return accepted({
    json: { greenhouse: file.id, counts, warnings: read.warnings },
    sheet: `${file.name}: nothing to mend. ${counts.basins} basins, ${counts.crops} crops, ${counts.lots} lots, ${counts.orderLines} order lines, ${counts.readings} readings, ${counts.samples} plants sampled, ${counts.analyses} analyses.`,
  }, read.warnings);
}
