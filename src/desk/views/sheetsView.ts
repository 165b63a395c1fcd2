import type { GreenhouseFile } from '../../greenhouse/schema/greenhouseFile.ts';
import type { Composition } from '../../science/chemistry/composition.ts';
import { RefusedRequest, refuse } from '../http/answers.ts';
import { compositionOfAnalysis } from '../../greenhouse/compositionOfAnalysis.ts';
import type { GreenhouseState } from '../../greenhouse/state.ts';
import { concentrateRecipe, type ConcentrateQuestion } from '../../planning/water/recipes/concentrateRecipe.ts';
import { refillSheets } from '../../planning/water/recipes/refillSheets.ts';
import { SHEET_CAUTIONS } from '../../planning/water/recipes/tankSheet.ts';
import type { RecipeAnswer, SheetsAnswer } from '../contract.ts';
import type { DeskParts } from '../deskParts.ts';
import { componentNames } from './componentNames.ts';

/** Sheets that fill up every tank made here, with the softest water of which an analysis is known. */
export function sheetsView(desk: DeskParts): SheetsAnswer {
  const state = desk.greenhouse.state();
  const file = describedFile(state);
  const plan = desk.morning.newest();
  const waters = analysedWaters(state, file, desk.nowAt());
  const soft = [...waters].sort((a, b) => hardness(a.mmolPerL) - hardness(b.mmolPerL))[0];
  const crops = Object.values(state.crops);
  return {
    date: plan?.date ?? desk.nowAt().slice(0, 10), greenhouse: file.name, cautions: SHEET_CAUTIONS,
    waterTitle: soft?.title ?? 'water', waterBasis: soft?.basis ?? 'no analysis is recorded: taken as pure',
    sheets: refillSheets({
      sources: file.sources, products: state.products, crops, coldestC: file.storeColdestC, waterMmolPerL: soft?.mmolPerL ?? {},
      presentL: Object.fromEntries((plan?.tanks ?? []).map(({ source, volumeL }) => [source, volumeL])), drawnTodayL: plan?.account.waterL ?? {},
    }),
    choices: { crops: crops.map(({ id, title }) => ({ id, title })), waters: waters.map(({ id, title }) => ({ id, title })) },
  };
}

export interface RecipeAsked {
  readonly crop: string;
  readonly table: ConcentrateQuestion['table'];
  readonly water: string;
  readonly factor: number;
  readonly tankL: number;
  readonly moves: ConcentrateQuestion['moves'];
}

/** Concentrates for a crop. Refused: an unknown crop or water, and whatever must not be mixed, with every reason. */
export function recipeView(desk: DeskParts, asked: RecipeAsked): RecipeAnswer {
  const state = desk.greenhouse.state();
  const file = describedFile(state);
  const card = state.crops[asked.crop];
  if (card === undefined) throw refuse('reference-unknown', 'query.crop', `No crop card "${asked.crop}" is in the folder.`, asked.crop);
  const water = analysedWaters(state, file, desk.nowAt()).find(({ id }) => id === asked.water);
  if (water === undefined) throw refuse('reference-unknown', 'query.water', `No fresh water "${asked.water}" with an analysis is known; add its analysis to water-analyses.csv.`, asked.water);
  const plan = desk.morning.newest();
  const neededTodayL = (plan?.feeds ?? []).filter(({ crop }) => crop === card.id).reduce((sum, { addedL }) => sum + addedL, 0);
  const outcome = concentrateRecipe({
    card, table: asked.table, water, products: Object.values(state.products), concentrationFactor: asked.factor, tankVolumeL: asked.tankL,
    coldestC: file.storeColdestC, moves: asked.moves, neededTodayL,
  });
  if (!outcome.ok) throw new RefusedRequest(outcome.refusals);
  return {
    date: plan?.date ?? desk.nowAt().slice(0, 10), greenhouse: file.name, currency: file.prices.currency, factor: asked.factor, tankL: asked.tankL, coldestC: file.storeColdestC,
    cautions: SHEET_CAUTIONS, components: componentNames, recipe: outcome.value,
  };
}

function describedFile({ file }: GreenhouseState): GreenhouseFile {
  if (file === undefined) throw refuse('value-missing', 'greenhouse.yaml', 'No greenhouse is described yet.');
  return file;
}

interface AnalysedSource { readonly id: string; readonly title: string; readonly mmolPerL: Composition; readonly basis: string }

/** Fresh waters with their latest analysis, in the order of the greenhouse file. */
function analysedWaters(state: GreenhouseState, file: GreenhouseFile, nowAt: string): AnalysedSource[] {
  return file.sources.filter(({ kind }) => kind === 'fresh').flatMap(({ id, title }) => {
    const rows = state.analyses.filter(({ place, at }) => place === `tank:${id}` && Date.parse(at) <= Date.parse(nowAt));
    const latest = rows.sort((a, b) => Date.parse(a.at) - Date.parse(b.at)).at(-1);
    return latest === undefined ? [] : [{ id, title, mmolPerL: compositionOfAnalysis(latest).mmolPerL, basis: `analysis ${latest.analysis} of ${latest.at.slice(0, 10)}` }];
  });
}

const hardness = ({ Ca = 0, Mg = 0, HCO3 = 0 }: Composition): number => Ca + Mg + HCO3;
