import type { PlantMeasures, ScannedPlant, WatchReason } from '../../desk/contract.ts';
import { count, fixed, percent, plain, withUnit } from '../words/figures.ts';
import { signed } from './colourings.ts';
import type { Rgb } from './picture/ramp.ts';

const COLOUR_PARTS = ['red', 'green', 'blue'] as const;

/** "raft 2, position 14". */
export const plantName = ({ raft, position }: { readonly raft: number; readonly position: number }): string => `raft ${raft}, position ${position}`;
/** The plant in an address: "2-14". */
export const plantKey = ({ raft, position }: { readonly raft: number; readonly position: number }): string => `${raft}-${position}`;

/** Why a plant is to be looked at, in a word or two. */
export const REASON_WORDS: Readonly<Record<WatchReason, string>> = { gone: 'gone', shrank: 'shrank', lags: 'lags behind', bolts: 'bolts', yellows: 'turns yellow', outside: 'unlike its fellows' };

/** `sample`: a colour to show beside the value. */
export interface MeasureRow { readonly name: string; readonly value: string; readonly note?: string; readonly sample?: Rgb }

/** Every measure of a plant with its unit; what could not be told is said so. */
export function measureRows(is: PlantMeasures): readonly MeasureRow[] {
  const mass = is.freshG === undefined ? { value: 'not told' } : { value: withUnit(plain(is.freshG), 'g'), ...(is.lowG === undefined || is.highG === undefined ? {} : { note: `nine in ten: ${plain(is.lowG)} to ${plain(is.highG)} g` }) };
  return [
    { name: 'Fresh mass', ...mass },
    { name: 'Against the forecast', value: is.gapToForecast === undefined ? 'not told' : signed(is.gapToForecast) },
    { name: 'Growth a day', value: is.growthPerDay === undefined ? 'not told' : signed(is.growthPerDay), note: 'of volume, since the scan before' },
    { name: 'Area from above', value: withUnit(plain(is.areaMm2 / 100), 'cm²') },
    { name: 'Volume under leaves', value: withUnit(plain(is.volumeMm3 / 1000), 'cm³') },
    { name: 'Height', value: withUnit(fixed(is.heightP95Mm, 0), 'mm'), note: `95 % lie lower; highest ${fixed(is.heightMaxMm, 0)} mm` },
    { name: 'Width', value: withUnit(fixed(is.diameterMm, 0), 'mm') },
    { name: 'Touches others', value: percent(is.sharedOutline), note: 'of its outline' },
    ...(is.greenness === undefined ? [] : [{ name: 'Green', value: fixed(is.greenness, 2), note: `excess green, −1 to 2${is.hueDeg === undefined ? '' : `; hue ${fixed(is.hueDeg, 0)}°`}` }]),
    ...(is.colour === undefined ? [] : [{ name: 'Leaf colour', value: COLOUR_PARTS.map((part) => fixed(is.colour![part], 0)).join(' '), note: 'red, green, blue of 255: the mean of its points', sample: [is.colour.red, is.colour.green, is.colour.blue] as const }]),
    { name: 'Seen by', value: count(is.points, 'point') },
  ];
}

/** A plant in one sentence, for whoever does not see the picture. */
export function plantSentence(plant: ScannedPlant): string {
  const name = `${plantName(plant)[0]!.toUpperCase()}${plantName(plant).slice(1)}`;
  if (plant.measures === undefined) return `${name}: nothing grows there.`;
  const { freshG, areaMm2, heightP95Mm } = plant.measures;
  const size = freshG === undefined ? `${plain(areaMm2 / 100)} cm², ${fixed(heightP95Mm, 0)} mm high` : `${plain(freshG)} g`;
  return `${name}: ${[size, ...plant.reasons.map(({ reason }) => REASON_WORDS[reason])].join(', ')}.`;
}
