import { readEpw } from '../../science/climate/readEpw.ts';
import { readWeatherCsv } from '../../science/climate/readWeatherCsv.ts';
import { accepted, refused, type Outcome, type Refusal } from '../../science/refusal.ts';
import { cropCard } from '../schema/cropCard.ts';
import { greenhouseFile, type GreenhouseFile } from '../schema/greenhouseFile.ts';
import { productsFile } from '../schema/productsFile.ts';
import { analysisRow, lotRow, orderRow, readingRow, sampleRow, sowingRow } from '../schema/tableRows.ts';
import { weatherPlaceOf } from '../weatherPlace.ts';
import { checkFolder } from './checkFolder.ts';
import type { GreenhouseFolder, ReadFolder } from './greenhouseFolder.ts';
import { placesIn, writePlace } from './place.ts';
import { readTableFile } from './readTableFile.ts';
import { readYamlFile } from './readYamlFile.ts';

const TABLES = { 'orders.csv': orderRow, 'lots.csv': lotRow, 'sowings.csv': sowingRow, 'readings.csv': readingRow, 'samples.csv': sampleRow, 'water-analyses.csv': analysisRow } as const;
const REQUIRED = ['greenhouse.yaml', 'fertilisers.yaml', 'orders.csv', 'lots.csv'] as const;
const WEATHER = ['weather.epw', 'weather.csv'] as const;

/**
 * Reads the files of a greenhouse folder (path in the folder -> text). Everything wrong in all files is listed at once;
 * nothing is half-loaded. Required: greenhouse.yaml, fertilisers.yaml, orders.csv, lots.csv,
 * at least one crops/*.yaml, weather.epw or weather.csv. A missing orders.csv or lots.csv would withdraw everything that it named.
 */
export function readGreenhouseFolder(files: Readonly<Record<string, string>>): Outcome<GreenhouseFolder> {
  const found: Refusal[] = [];
  /** The value of a reading; what speaks against it is noted. */
  const take = <T>(outcome: Outcome<T> | undefined): T | undefined => {
    if (outcome === undefined) return undefined;
    found.push(...(outcome.ok ? outcome.warnings : outcome.refusals));
    return outcome.ok ? outcome.value : undefined;
  };
  const table = <K extends keyof typeof TABLES>(name: K) => take(files[name] === undefined ? accepted([]) : readTableFile(name, files[name], TABLES[name]));
  found.push(...missingFiles(files), ...unstorableTexts(files));
  const greenhouse = take(files['greenhouse.yaml'] === undefined ? undefined : readYamlFile('greenhouse.yaml', files['greenhouse.yaml'], greenhouseFile));
  const read = {
    greenhouse, products: take(files['fertilisers.yaml'] === undefined ? undefined : readYamlFile('fertilisers.yaml', files['fertilisers.yaml'], productsFile)),
    crops: cropPaths(files).flatMap((path) => take(readYamlFile(path, files[path]!, cropCard)) ?? []),
    orders: table('orders.csv'), lots: table('lots.csv'), sowings: table('sowings.csv'), readings: table('readings.csv'), samples: table('samples.csv'), analyses: table('water-analyses.csv'),
  } satisfies ReadFolder;
  const weather = weatherOf(files);
  if (weather !== undefined) take(readWeather(weather, greenhouse?.value));
  found.push(...checkFolder(read));
  if (found.some((each) => each.severity === 'error') || greenhouse === undefined || read.products === undefined || weather === undefined) return refused(found);
  const valuesOf = <T>(rows: readonly { readonly value: T }[] | undefined) => (rows ?? []).map((row) => row.value);
  return accepted({
    file: greenhouse.value, crops: valuesOf(read.crops), products: read.products.value, orders: valuesOf(read.orders), lots: valuesOf(read.lots), ...(files['sowings.csv'] === undefined ? {} : { sowings: valuesOf(read.sowings) }),
    readings: valuesOf(read.readings), samples: valuesOf(read.samples), analyses: valuesOf(read.analyses), weather,
  }, found);
}

/** Characters that no text may hold and no database keeps: NUL and halves of surrogate pairs. */
const UNSTORABLE = /\0|\p{Surrogate}/u;

function unstorableTexts(files: Readonly<Record<string, string>>): Refusal[] {
  return Object.entries(files).flatMap(([path, text]): Refusal[] => {
    const at = UNSTORABLE.exec(text);
    return at === null ? [] : [{ code: 'file-unreadable', severity: 'error', path: writePlace(path, placesIn(text)(at.index)), message: `${path} holds a character here that is no text; save it as UTF-8 and remove it.` }];
  });
}

const cropPaths = (files: Readonly<Record<string, string>>) => Object.keys(files).filter((path) => /^crops\/[^/]+\.ya?ml$/.test(path)).sort();

function missingFiles(files: Readonly<Record<string, string>>): Refusal[] {
  const missing = (path: string, message: string): Refusal => ({ code: 'file-missing', severity: 'error', path, message });
  return [
    ...REQUIRED.filter((path) => files[path] === undefined).map((path) => missing(path, `${path} is not in the folder; add it (\`watermeadow demo DIR\` writes an example).`)),
    ...(cropPaths(files).length === 0 ? [missing('crops/', 'No crop card is in crops/; add at least one crops/NAME.yaml.')] : []),
    ...(WEATHER.every((name) => files[name] !== undefined) ? [{ code: 'inconsistent', severity: 'error', path: 'weather.csv:1:1', message: 'Both weather.epw and weather.csv are in the folder; keep the one that is meant.' } as const] : []),
    ...(weatherOf(files) === undefined ? [missing('weather.epw', 'Neither weather.epw nor weather.csv is in the folder; add the outdoor weather of a typical year.')] : []),
  ];
}

function weatherOf(files: Readonly<Record<string, string>>): GreenhouseFolder['weather'] | undefined {
  const fileName = WEATHER.find((name) => files[name] !== undefined);
  return fileName === undefined ? undefined : { fileName, text: files[fileName]! };
}

/** Weather is read here to be checked only: events carry the file as it was given. */
function readWeather(weather: GreenhouseFolder['weather'], greenhouse: GreenhouseFile | undefined): Outcome<unknown> | undefined {
  if (weather.fileName === 'weather.epw') return readEpw(weather.text, weather.fileName);
  return greenhouse === undefined ? undefined : readWeatherCsv(weather.text, weather.fileName, weatherPlaceOf(greenhouse));
}
