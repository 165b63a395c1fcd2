import type { PlantMeasures, ScannedPlant } from '../../desk/contract.ts';
import { fixed, percent } from '../words/figures.ts';
import type { HeightPicture } from './picture/heightPicture.ts';
import { compareHeights, reachOf } from './picture/compareHeights.ts';
import { changeLevels, heightLevels } from './picture/levels.ts';
import type { Paint } from './picture/paintPicture.ts';
import { sideColour, stepColour, type Rgb } from './picture/ramp.ts';
import { tallestMm } from './picture/tallestMm.ts';
import { choiceOf, SCORE_CHOICES } from './scoreChoices.ts';

export type ColouringName = 'seen' | 'height' | 'growth' | 'gap' | 'green' | 'score';
export const COLOURING_WORDS: Readonly<Record<ColouringName, string>> = { seen: 'As seen', height: 'Height', growth: 'Growth', gap: 'Gap to forecast', green: 'Green', score: 'Score' };

/** How the picture is coloured, and what the colours mean. */
export interface Colouring {
  readonly paint: Paint;
  /** Where heights give the colour: the height of its dark end. */
  readonly topMm?: number;
  readonly legend: Legend;
}

export interface Legend {
  /** What the colours say, in a sentence. */
  readonly words: string;
  /** Colours from left to right with a mark at each; drawn as one strip. */
  readonly strip?: { readonly colours: readonly Rgb[]; readonly marks: readonly string[] };
  /** Single colours, each with its word and letter. */
  readonly swatches?: readonly { readonly colour: Rgb; readonly word: string; readonly letter: string }[];
}

const STRIP = 24;
const strip = (colour: (share: number) => Rgb, from: number): Rgb[] => Array.from({ length: STRIP + 1 }, (_, i) => colour(from + ((1 - from) * i) / STRIP));

/** What a scale is made to fit. */
interface Fitted { readonly plants: readonly ScannedPlant[]; readonly picture: HeightPicture }

/** The colouring by one measure, on a scale that fits the plants of this scan, or those of another so that both can be compared. */
export function colouringOf(name: ColouringName, plants: readonly ScannedPlant[], picture: HeightPicture, fitted: Fitted = { plants, picture }): Colouring {
  switch (name) {
    case 'seen': return { paint: {}, legend: { words: 'Colours as the camera saw them, lit from the upper left so that heights can be read.' } };
    case 'height': return byHeight(picture, tallestMm(fitted.picture));
    case 'growth': return byGrowth(plants, fitted.plants);
    case 'gap': return byGap(plants, fitted.plants);
    case 'green': return byGreen(plants, fitted.plants);
    case 'score': return byScore(plants);
  }
}

function byHeight(picture: HeightPicture, topMm: number): Colouring {
  return {
    paint: { levels: heightLevels(picture, topMm, stepColour) }, topMm,
    legend: { words: 'Height over the level of the rafts: the darker, the higher.', strip: { colours: strip(stepColour, 0), marks: ['0 mm', `${fixed(topMm / 2, 0)} mm`, `${fixed(topMm, 0)} mm or more`] } },
  };
}

function byGrowth(plants: readonly ScannedPlant[], fitted: readonly ScannedPlant[]): Colouring {
  const values = valuesOf(fitted, ({ growthPerDay }) => growthPerDay);
  if (values.length === 0) return { paint: { ofPlants: [] }, legend: { words: 'Growth cannot be told from one scan; it shows from the second scan of these plants on.' } };
  const middle = quantile(values, 0.5), reach = Math.max(0.02, quantile(values.map((value) => Math.abs(value - middle)), 0.95));
  return {
    paint: { ofPlants: plants.map(({ measures }) => tint(measures?.growthPerDay, (value) => sideColour((value - middle) / reach))) },
    legend: { words: 'Growth of the volume a day since the scan before. Brown grew less than the middle plant of this basin, blue more.', strip: { colours: strip(sideColour, -1), marks: [signed(middle - reach), `${signed(middle)}, the middle`, signed(middle + reach)] } },
  };
}

function byGap(plants: readonly ScannedPlant[], fitted: readonly ScannedPlant[]): Colouring {
  const values = valuesOf(fitted, ({ gapToForecast }) => gapToForecast);
  if (values.length === 0) return { paint: { ofPlants: [] }, legend: { words: 'There was no forecast of these plants before this scan, or their mass could not be told.' } };
  const reach = Math.max(0.1, quantile(values.map(Math.abs), 0.95));
  return {
    paint: { ofPlants: plants.map(({ measures }) => tint(measures?.gapToForecast, (value) => sideColour(value / reach))) },
    legend: { words: 'Fresh mass against the middle of the forecast before this scan. Brown is behind it, blue ahead.', strip: { colours: strip(sideColour, -1), marks: [signed(-reach), 'as forecast', signed(reach)] } },
  };
}

function byGreen(plants: readonly ScannedPlant[], fitted: readonly ScannedPlant[]): Colouring {
  const values = valuesOf(fitted, ({ greenness }) => greenness);
  if (values.length === 0) return { paint: { ofPlants: [] }, legend: { words: 'The cloud has no colours: nobody can tell from it how green a plant is.' } };
  const middle = quantile(values, 0.5), reach = Math.max(0.05, quantile(values.map((value) => Math.abs(value - middle)), 0.95));
  return {
    paint: { ofPlants: plants.map(({ measures }) => tint(measures?.greenness, (value) => sideColour((value - middle) / reach))) },
    legend: { words: 'Excess green of the leaves. Brown is yellower or redder than the middle plant of this basin, blue greener.', strip: { colours: strip(sideColour, -1), marks: [fixed(middle - reach, 2), `${fixed(middle, 2)}, the middle`, fixed(middle + reach, 2)] } },
  };
}

function byScore(plants: readonly ScannedPlant[]): Colouring {
  const used = new Set(plants.map(({ score }) => score?.class));
  return {
    paint: { ofPlants: plants.map(({ score }) => choiceOf(score?.class)?.colour) },
    legend: {
      words: used.size <= 1 && used.has(undefined) ? 'Nobody scored a plant of this scan yet. Each class will have its letter and colour.' : 'What growers said of each plant of this scan. Plants in grey were not scored.',
      swatches: SCORE_CHOICES.map(({ colour, word, letter }) => ({ colour, word, letter })),
    },
  };
}

const tint = (value: number | undefined, colour: (value: number) => Rgb): Rgb | undefined => (value === undefined ? undefined : colour(value));
const valuesOf = (plants: readonly ScannedPlant[], measure: (measures: PlantMeasures) => number | undefined): number[] =>
  plants.flatMap(({ measures }) => (measures === undefined ? [] : measure(measures) ?? [])).sort((a, b) => a - b);
const quantile = (values: readonly number[], share: number): number => [...values].sort((a, b) => a - b)[Math.round(share * (values.length - 1))] ?? 0;

/** A share with its sign: "+4 %", "−12 %". */
export const signed = (share: number): string => `${share < -0.005 ? '−' : share > 0.005 ? '+' : ''}${percent(Math.abs(share))}`;

/** How heights changed since another scan. */
export function changeColouring(now: HeightPicture, before: HeightPicture, sinceWords: string): Colouring {
  const change = compareHeights(now, before), reach = reachOf(change);
  return {
    paint: { levels: changeLevels(change, reach, sideColour) },
    legend: { words: `Change of height since ${sinceWords}. Brown is lower than then, blue higher.`, strip: { colours: strip(sideColour, -1), marks: [`−${reach} mm`, 'the same', `+${reach} mm`] } },
  };
}
