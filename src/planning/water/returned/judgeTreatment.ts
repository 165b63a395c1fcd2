import type { SourceDescription } from '../../../greenhouse/schema/greenhouseFile.ts';
import type { AnalysisRow } from '../../../greenhouse/schema/tableRows.ts';
import type { CautionClass } from '../../../science/chemistry/cautions.ts';
import { neededHoldS } from '../../../science/chemistry/heatHold.ts';
import { largestFlowLPerMin, NEEDED_FLUENCE_MJ_PER_CM2, uvFluenceMjPerCm2 } from '../../../science/chemistry/uvFluence.ts';
import { shown } from '../../words/plainWords.ts';

type Treatment = NonNullable<SourceDescription['treatment']>;

export interface TreatmentVerdict {
  /** Why the tank must not be drawn from, and what would do; absent where it may. */
  readonly forbids?: string;
  /** The tank may be drawn from as soon as a test is back: nothing is wrong with the treatment itself. */
  readonly isHeld: boolean;
  /** Share of the iron that is left behind the treatment. */
  readonly ironShareKept: number;
  readonly cautions: readonly CautionClass[];
  /** What the treatment does, in words with numbers; empty where there is none. */
  readonly basis: string;
}

const DAY_MS = 86_400_000;

/**
 * Whether what comes out of a return tank is fit for plants: the fluence of its lamp in its own water, the time of its heater,
 * and the latest test for pathogens where the greenhouse asks for one. A tank without a treatment is left as it is.
 */
export function judgeTreatment(source: SourceDescription, analyses: readonly AnalysisRow[], atMs: number): TreatmentVerdict {
  const { treatment } = source;
  if (source.kind !== 'return' || treatment === undefined) return { isHeld: false, ironShareKept: 1, cautions: [], basis: '' };
  const uvC = judgeUvC(treatment, source.title, latestWith(analyses, 'absorbance254PerCm', atMs));
  const heat = judgeHeat(treatment, source.title);
  const test = judgeTest(treatment, source.title, latestWith(analyses, 'pathogens', atMs), atMs);
  const forbids = uvC.forbids ?? heat.forbids ?? test.forbids;
  return {
    ...(forbids === undefined ? {} : { forbids }),
    isHeld: test.forbids !== undefined && uvC.forbids === undefined && heat.forbids === undefined,
    ironShareKept: 1 - (treatment.uvC?.ironLossShare ?? 0),
    cautions: [...(treatment.uvC === undefined ? [] : ['ultraviolet' as const]), ...(treatment.heat === undefined ? [] : ['heat' as const])],
    basis: [...(treatment.filterUm === undefined ? [] : [`filter ${treatment.filterUm} um`]), ...uvC.basis, ...heat.basis, ...test.basis].join(', '),
  };
}

interface Part { readonly forbids?: string; readonly basis: readonly string[] }
const NONE: Part = { basis: [] };

function judgeUvC({ uvC }: Treatment, title: string, analysed: AnalysisRow | undefined): Part {
  if (uvC === undefined) return NONE;
  const absorbancePerCm = analysed?.absorbance254PerCm ?? uvC.absorbance254PerCm;
  const chamber = { uvcW: uvC.lampUvcW * uvC.agedShare, layerCm: uvC.layerCm, absorbancePerCm };
  const needed = NEEDED_FLUENCE_MJ_PER_CM2[uvC.against];
  const fluence = uvFluenceMjPerCm2(chamber, uvC.flowLPerMin);
  const water = `absorbance ${absorbancePerCm} /cm${analysed === undefined ? ', as described' : `, analysis ${analysed.analysis}`}`;
  const words = `UV-C ${shown(fluence, 0)} mJ/cm2 at ${uvC.flowLPerMin} L/min (${water}); ${needed} needed against ${uvC.against}`;
  if (fluence >= needed) return { basis: [words] };
  return { basis: [words], forbids: `${title}: ${words}. Let it flow at ${shown(Math.floor(10 * largestFlowLPerMin(chamber, needed)) / 10, 1)} L/min at most, or clean the sleeve, renew the lamps or clear the water.` };
}

function judgeHeat({ heat }: Treatment, title: string): Part {
  if (heat === undefined) return NONE;
  const needed = neededHoldS(heat.temperatureC);
  const words = `heat ${heat.temperatureC} C for ${heat.holdS} s`;
  if (needed === undefined) return { basis: [words], forbids: `${title}: ${words}; below 85 C nothing at hand says how long would do. Heat to 85 C for 180 s or 95 C for 30 s.` };
  if (heat.holdS >= needed) return { basis: [words] };
  return { basis: [words], forbids: `${title}: ${words}; at that temperature ${Math.ceil(needed)} s are needed. Hold it longer or hotter (95 C for 30 s).` };
}

function judgeTest({ testEveryDays }: Treatment, title: string, latest: AnalysisRow | undefined, atMs: number): Part {
  if (testEveryDays === 0) return NONE;
  const ask = `Record a test of the tank in water-analyses.csv (pathogens: clear).`;
  if (latest === undefined) return { basis: [], forbids: `${title} is held until a test for pathogens is back: none is recorded. ${ask}` };
  const days = Math.floor((atMs - Date.parse(latest.at)) / DAY_MS);
  const words = `pathogens ${latest.pathogens} in analysis ${latest.analysis} of ${latest.at.slice(0, 10)}`;
  if (latest.pathogens === 'found') return { basis: [words], forbids: `${title} is held: ${words}. Treat or discharge it, and test again.` };
  if (days > testEveryDays) return { basis: [words], forbids: `${title} is held: its last test (${words}) is ${days} days old, ${testEveryDays} are allowed. ${ask}` };
  return { basis: [words] };
}

function latestWith(analyses: readonly AnalysisRow[], column: 'absorbance254PerCm' | 'pathogens', atMs: number): AnalysisRow | undefined {
  return analyses.filter((row) => row[column] !== undefined && Date.parse(row.at) <= atMs)
    .reduce<AnalysisRow | undefined>((best, row) => (best === undefined || Date.parse(row.at) >= Date.parse(best.at) ? row : best), undefined);
}
