import { CAUTION_DEFERENCE, CAUTIONS, type CautionClass } from '../../science/chemistry/cautions.ts';
import type { Caution, FeedTicket, PlannedVisit } from '../morningPlan.ts';

const BY_STATION: Readonly<Record<string, readonly Caution[]>> = {
  filling: [{ subject: 'electricity near water', text: 'Pumps, probes and lamps near water only on circuits with a residual-current device; dry hands before switching. A licensed electrician decides.' }],
  washing: [{ subject: 'washing', text: 'Disinfectants apart from acids and from plants; goggles and gloves; rinse until the test strip is clear. The label and the safety data sheet decide.' }],
  harvest: [{ subject: 'food safety', text: 'Clean hands, knives and crates; no harvest with an open wound or a stomach illness; wash water as the local food code asks.' }],
};

const ALWAYS: Caution = { subject: 'vehicles', text: 'A loaded vehicle weighs over half a tonne: nobody in its way or under a raised basin; the stop button is always in reach and never waits for this plan.' };

/** Cautions for what is really done today. Each defers to codes, data sheets and licensed practice. */
export function dayCautions(visits: readonly PlannedVisit[], feeds: readonly FeedTicket[], treated: ReadonlyMap<string, readonly CautionClass[]> = new Map()): Caution[] {
  if (visits.length === 0) return [];
  const kinds = new Set(visits.flatMap(({ stops }) => stops.map(({ kind }) => kind)));
  const drawn = new Set(feeds.flatMap(({ draws }) => draws.map(({ kind }) => kind)));
  const chemicals: CautionClass[] = [...(drawn.has('acid') ? ['acid' as const] : []), ...(drawn.has('base') ? ['alkaline' as const] : []), ...(drawn.has('stock') ? ['calcium' as const] : []), ...new Set(feeds.flatMap(({ draws }) => draws.flatMap(({ source }) => treated.get(source) ?? [])))];
  return [
    ALWAYS,
    ...Object.entries(BY_STATION).flatMap(([kind, cautions]) => (kinds.has(kind as PlannedVisit['stops'][number]['kind']) ? cautions : [])),
    ...chemicals.map((name): Caution => ({ subject: name, text: `${CAUTIONS[name]} ${CAUTION_DEFERENCE}` })),
  ];
}
