import { dirname, resolve } from 'node:path';
import { forecastFile, type ForecastTexts } from '../../science/crop/forecastFile.ts';
import { accepted, refused, type Outcome } from '../../science/refusal.ts';
import type { CliCommand, CommandAnswer } from '../cliCommand.ts';
import { readJsonFile, readTextFile } from '../readJsonFile.ts';

export const forecastCommand: CliCommand = {
  name: 'forecast', argument: 'FILE', options: [],
  summary: 'Forecast a lot from the climate, spacing and samples that a JSON file names (paths from where that file lies).',
  run: async (path) => forecast(path),
};

const NAMED = { climateCsv: true, outlookCsv: false, plantsPerM2Csv: true, samplesCsv: true } as const satisfies Record<keyof ForecastTexts, boolean>;

function forecast(path: string): Outcome<CommandAnswer> {
  const input = readJsonFile(path);
  if (!input.ok) return input;
  const texts = readNamed(input.value, dirname(path));
  if (!texts.ok) return texts;
  const answer = forecastFile(input.value, texts.value);
  return answer.ok ? accepted({ json: answer.value, sheet: JSON.stringify(answer.value, undefined, 2) }, answer.warnings) : answer;
}

/** The texts of the files that the request names; a request that names none is refused by the forecast itself. */
function readNamed(input: unknown, from: string): Outcome<ForecastTexts> {
  const named = typeof input === 'object' && input !== null ? input as Readonly<Record<string, unknown>> : {};
  const read = Object.keys(NAMED).map((key) => ({ key, text: typeof named[key] === 'string' ? readTextFile(resolve(from, named[key])) : undefined }));
  const wrong = read.flatMap(({ text }) => (text === undefined || text.ok ? [] : text.refusals));
  if (wrong.length > 0) return refused(wrong);
  const texts = Object.fromEntries(read.flatMap(({ key, text }) => (text?.ok === true ? [[key, text.value]] : [])));
  return accepted({ climateCsv: '', plantsPerM2Csv: '', samplesCsv: '', ...texts });
}
