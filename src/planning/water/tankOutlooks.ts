import type { ShiftDay } from '../day/shiftDay.ts';
import type { TankOutlook } from '../morningPlan.ts';
import type { PlanParts } from '../planParts.ts';
import type { WaterFlow } from '../../greenhouse/waterBook.ts';
import { roundComposition, roundTo } from './feedTicket.ts';
import type { SourceWater } from './sourceWaters.ts';
import { saltLimits, tankProjections } from './tankProjections.ts';
import type { TankState } from './tankState.ts';
import { waterFigures } from './waterFigures.ts';

/** Every source for people: what is in it, how that is known, and where a return tank is heading with what comes and goes. */
export function tankOutlooks({ state, file, day, basins, decided }: Pick<PlanParts, 'state' | 'file' | 'day' | 'basins' | 'decided'>, today: readonly WaterFlow[]): TankOutlook[] {
  const returns = file.sources.flatMap((source) => { const tank = decided.sources.tanks.get(source.id); return tank === undefined ? [] : [{ source, state: tank }]; });
  const crops = Object.values(state.crops);
  const projections = tankProjections({ basins, tanks: returns, recorded: state.water.flows, today, atMs: day.atMs }, crops, day.date);
  const limits = saltLimits(crops).filter(({ component }) => component === 'Na' || component === 'Cl');
  return file.sources.map((source): TankOutlook => {
    const at = returns.findIndex((tank) => tank.source.id === source.id);
    const unusable = decided.sources.unusable.find((is) => is.source.id === source.id);
    const reason = unusable?.reason;
    // As it is drawn: behind its treatment.
    const water = decided.sources.usable.find((is) => is.source.id === source.id) ?? unusable?.water;
    return {
      source: source.id, title: source.title, kind: source.kind, capacityL: source.capacityL, ...contentsOf(water), ...(reason === undefined ? {} : { reason }),
      ...(at < 0 ? untracked(source.id, water, source.availableL, state.water.flows, day) : tracked(returns[at]!.state)),
      limits: at < 0 ? [] : limits, projections: projections[at] ?? [], why: 'tank-count',
    };
  });
}

const contentsOf = (water: SourceWater | undefined): Partial<TankOutlook> =>
  (water === undefined ? {} : { mmolPerL: roundComposition(water.mmolPerL), ...(water.source.kind === 'fresh' || water.source.kind === 'return' ? { ecMsPerCm25: roundTo(waterFigures(water.mmolPerL).ecMsPerCm25, 4) } : {}) });

type Counted = Pick<TankOutlook, 'volumeL' | 'volumeSdL' | 'strengthSdShare' | 'since' | 'inL' | 'outL' | 'basis' | 'flags'>;

const tracked = ({ volumeL, volumeSdL, strengthSdShare, since, inL, outL, basis, flags }: TankState): Counted => ({
  volumeL: tenth(volumeL), ...(volumeSdL === undefined ? {} : { volumeSdL: tenth(volumeSdL) }), ...(strengthSdShare === undefined ? {} : { strengthSdShare: roundTo(strengthSdShare, 3) }),
  ...(since === undefined ? {} : { since }), inL: tenth(inL), outL: tenth(outL), basis,
  flags: flags.map(({ at, sentence, likelyCause }) => ({ at, sentence, likelyCause })),
});

/** A pipe or a stock: nothing is put in that is on record; what was drawn today. */
function untracked(id: string, water: SourceWater | undefined, describedL: number, flows: readonly WaterFlow[], day: ShiftDay): Counted {
  const outL = flows.filter(({ from, at }) => from === `tank:${id}` && Date.parse(at) >= day.atMs - 86_400_000 && Date.parse(at) <= day.atMs).reduce((sum, { litres }) => sum + litres, 0);
  return { volumeL: tenth(water?.availableL ?? describedL), inL: 0, outL: tenth(outL), basis: water?.basis ?? 'as described', flags: [] };
}

const tenth = (litres: number): number => Math.round(10 * litres) / 10;
