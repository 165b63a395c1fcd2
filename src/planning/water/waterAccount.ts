import type { WaterFlow } from '../../greenhouse/waterBook.ts';
import { addWater, NO_WATER, type WaterAmount } from '../../greenhouse/waterBook.ts';
import type { GreenhouseFile } from '../../greenhouse/schema/greenhouseFile.ts';
import type { AccountFlow, WaterAccount } from '../morningPlan.ts';
import { shown } from '../words/plainWords.ts';
import { roundComposition } from './feedTicket.ts';
import { waterLedger, type LedgerQuestion, type WaterLedger } from './waterLedger.ts';

/** Days that the account looks back. */
export const ACCOUNT_DAYS = 28;
const DAY_MS = 86_400_000;

/** The ledger of the last four weeks and today's planned flows, basins as one place, numbers rounded for people. */
export function waterAccount(question: Omit<LedgerQuestion, 'fromMs'>, today: readonly WaterFlow[], file: GreenhouseFile): WaterAccount {
  const fromMs = question.atMs - ACCOUNT_DAYS * DAY_MS;
  const ledger = waterLedger({ ...question, fromMs });
  const flows = joinFlows(ledger.flows);
  const planned = joinFlows(today);
  return {
    from: new Date(fromMs).toISOString(), to: new Date(question.atMs).toISOString(),
    titles: titlesOf(file, [...flows, ...planned]), flows, contents: contentsOf(ledger), today: planned, closesWithin: Number(ledger.closesWithin.toPrecision(2)),
    sentence: sentenceOf(flows), why: 'water-account',
  };
}

const placeOf = (place: string): string => (place.startsWith('basin:') ? 'basins' : place);

/** All flows between the same two places as one, in the order of their names. */
function joinFlows(flows: readonly WaterFlow[]): AccountFlow[] {
  const sums = new Map<string, { from: string; to: string; sum: WaterAmount }>();
  for (const flow of flows) {
    const [from, to] = [placeOf(flow.from), placeOf(flow.to)];
    const known = sums.get(`${from}>${to}`)?.sum ?? NO_WATER;
    sums.set(`${from}>${to}`, { from, to, sum: addWater(known, flow) });
  }
  return [...sums].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, { from, to, sum }]) => ({ from, to, ...rounded(sum) }));
}

const rounded = ({ litres, mmol }: WaterAmount): { litres: number; mmol: AccountFlow['mmol'] } => ({ litres: Number(litres.toFixed(2)), mmol: roundComposition(mmol) });

function contentsOf({ contents }: WaterLedger): WaterAccount['contents'] {
  const sums = new Map<string, { start: WaterAmount; end: WaterAmount }>();
  for (const [name, { start, end }] of Object.entries(contents)) {
    const known = sums.get(placeOf(name)) ?? { start: NO_WATER, end: NO_WATER };
    sums.set(placeOf(name), { start: addWater(known.start, start), end: addWater(known.end, end) });
  }
  return [...sums].sort(([a], [b]) => (a < b ? -1 : 1)).map(([place, { start, end }]) => {
    const [first, last] = [rounded(start), rounded(end)];
    return { place, startL: first.litres, startMmol: first.mmol, endL: last.litres, endMmol: last.mmol };
  });
}

const TITLES: Readonly<Record<string, string>> = { basins: 'Basins', crops: 'Crops', discharge: 'Discharge', treatment: 'Lost in treatment', unexplained: 'Unexplained' };

function titlesOf(file: GreenhouseFile, flows: readonly AccountFlow[]): Record<string, string> {
  const places = [...new Set(['basins', ...flows.flatMap(({ from, to }) => [from, to])])].sort();
  return Object.fromEntries(places.map((place) => [place, TITLES[place] ?? file.sources.find(({ id }) => `tank:${id}` === place)?.title ?? place]));
}

function sentenceOf(flows: readonly AccountFlow[]): string {
  const sum = (of: (flow: AccountFlow) => boolean) => flows.filter(of).reduce((total, { litres }) => total + litres, 0);
  const litres = (value: number) => `${shown(value, 0)} L`;
  const drawn = sum(({ from, to }) => from.startsWith('tank:') && to === 'basins');
  const gone = sum(({ to }) => to === 'crops');
  if (drawn + gone === 0) return `Nothing is on record for the last ${ACCOUNT_DAYS} days.`;
  return `In ${ACCOUNT_DAYS} days ${litres(drawn)} went into the basins and ${litres(gone)} were transpired; ${litres(sum(({ from, to }) => from === 'basins' && to.startsWith('tank:')))} came back into the return tanks, ${litres(sum(({ to }) => to === 'discharge'))} were discharged, and ${litres(sum(({ from }) => from === 'unexplained'))} are unexplained.`;
}
