import { z } from 'zod';
import { accepted, refused, type Outcome, type Refusal } from '../../science/refusal.ts';
import type { LinearSolver } from '../solver/linearModel.ts';
import type { BlendAnswer, BlendProblem } from './blendProblem.ts';
import { solveBlend } from './solveBlend.ts';

const litres = z.number().min(0).max(1e9);
const concentration = z.number().min(-1e5).max(1e5);
const composition = z.record(z.string().min(1), concentration);
const bounds = z.tuple([concentration, concentration]).refine(([low, high]) => low <= high, { message: 'the low bound comes first' });

const blendInput = z.strictObject({
  sources: z.array(z.strictObject({ id: z.string().min(1), mmolPerL: composition, availableL: litres, costPerL: z.number().min(0).max(1e6) })).max(1000),
  basins: z.array(z.strictObject({
    id: z.string().min(1),
    volumeL: litres,
    mmolPerL: composition,
    targetVolumeL: z.tuple([litres, litres]).refine(([low, high]) => low <= high, { message: 'the low bound comes first' }),
    mmolPerLBand: z.record(z.string().min(1), bounds),
  })).max(5000),
  dischargeCostPerL: z.number().min(0).max(1e6).default(0),
});

/** What `blend` prints: litres by basin and source, the mixture, and why. */
export interface BlendFileAnswer {
  readonly status: 'optimal' | 'infeasible';
  readonly cost: number;
  readonly lowerBound: number;
  readonly drawL: Readonly<Record<string, Readonly<Record<string, number>>>>;
  readonly drainL: Readonly<Record<string, number>>;
  readonly result: Readonly<Record<string, { readonly volumeL: number; readonly mmolPerL: Readonly<Record<string, number>> }>>;
  readonly binding: BlendAnswer['binding'];
  readonly violation: BlendAnswer['violations'];
}

/**
 * The linear blend of all basins of a file: sources (mmol/L, litres at hand, cost a litre) and basins (litres, mmol/L,
 * band of litres, band of mmol/L by ion) to the cheapest mix, proven. No speciation, no least dose. An ion that a water
 * does not list counts as 0 mmol/L there. Refuses input that is not of this form, and ids that are used twice.
 */
export function blendFile(input: unknown, solver: LinearSolver): Outcome<BlendFileAnswer> {
  const parsed = blendInput.safeParse(input);
  if (!parsed.success) return refused(parsed.error.issues.map(toRefusal));
  const { sources, basins, dischargeCostPerL } = parsed.data;
  const repeated = [...repeatedIds('sources', sources), ...repeatedIds('basins', basins)];
  if (repeated.length > 0) return refused(repeated);
  const problem: BlendProblem = {
    sources, dischargeCostPerL,
    basins: basins.map(({ id, volumeL, mmolPerL, targetVolumeL, mmolPerLBand }) => ({
      id, volumeL, mmolPerL, volumeBandL: targetVolumeL,
      limits: Object.entries(mmolPerLBand).map(([name, [low, high]]) => ({ name, unit: 'mmol/L', weights: { [name]: 1 }, constant: 0, low, high })),
    })),
  };
  const solved = solveBlend(problem, solver);
  return solved.ok ? accepted(toFileAnswer(problem, solved.value), solved.warnings) : solved;
}

function toFileAnswer(problem: BlendProblem, answer: BlendAnswer): BlendFileAnswer {
  const byBasin = <T>(read: (basin: BlendAnswer['basins'][number]) => T): Record<string, T> => Object.fromEntries(answer.basins.map((basin) => [basin.id, read(basin)]));
  return {
    status: answer.status,
    cost: answer.cost,
    lowerBound: answer.lowerBound,
    drawL: byBasin((basin) => Object.fromEntries(problem.sources.map((source, s) => [source.id, basin.drawL[s]!]))),
    drainL: byBasin((basin) => basin.drainL),
    result: byBasin(({ volumeL, mmolPerL }) => ({ volumeL, mmolPerL })),
    binding: answer.binding,
    violation: answer.violations,
  };
}

function toRefusal(issue: z.core.$ZodIssue): Refusal {
  const unknown = issue.code === 'unrecognized_keys';
  const code = unknown ? 'key-unknown' : issue.code === 'invalid_type' ? 'value-not-allowed' : 'value-out-of-range';
  return { code, path: issue.path.join('.') || 'blend', message: `${issue.path.join('.') || 'The file'}: ${issue.message}.`, severity: 'error' };
}

function repeatedIds(what: string, entries: readonly { readonly id: string }[]): Refusal[] {
  return entries.flatMap((entry, i): Refusal[] => (entries.findIndex((other) => other.id === entry.id) < i
    ? [{ code: 'duplicate', path: `${what}.${i}.id`, value: entry.id, message: `${what}: ${entry.id} is described twice.`, severity: 'error' }] : []));
}
