import { chargeErrorPct, type Composition } from '../../science/chemistry/composition.ts';
import type { Refusal } from '../../science/refusal.ts';
import type { SolutionTable } from '../schema/cropCard.ts';
import { findingsIn } from './findings.ts';
import type { ReadFolder } from './greenhouseFolder.ts';

/** pH that roots of crops in solution are kept at (common practice, no source). */
const USUAL_PH = [5, 7] as const;
/** Solutions as written balance within a few percent; beyond this an ion is missing or mistyped (common practice, no source). */
const BALANCE_PCT = 10;

/** What is possible but looks like a mistake: worth a look, not refused. */
export function checkSense(read: ReadFolder): Refusal[] {
  return [...checkWater(read), ...checkSources(read), ...checkTreatments(read), ...checkStations(read), ...checkSampledLots(read)];
}

function checkWater({ crops }: ReadFolder): Refusal[] {
  return crops.flatMap(({ value: { water }, file, placeOf }) => {
    const { found, warn } = findingsIn(file);
    const [low, high] = water.pH;
    if (low < USUAL_PH[0] || high > USUAL_PH[1]) warn('value-out-of-range', placeOf(['water', 'pH']), `A pH of ${low} to ${high} around the roots is unusual; ${USUAL_PH[0]} to ${USUAL_PH[1]} is common.`, { value: `${low} to ${high}`, limit: `${USUAL_PH[0]} to ${USUAL_PH[1]}`, unit: '[pH]' });
    if (high - low < 0.2) warn('value-out-of-range', placeOf(['water', 'pH']), `A pH band of ${(high - low).toFixed(2)} is narrower than probes can tell; 0.2 or more makes sense.`, { value: high - low, limit: 0.2, unit: '[pH]' });
    for (const name of ['target', 'feed'] as const) {
      const pct = chargeErrorPct(compositionOf(water[name]));
      if (pct !== undefined && Math.abs(pct) > BALANCE_PCT) warn('inconsistent', placeOf(['water', name, 'mmolPerL']), `Cations and anions of the ${name} differ by ${pct.toFixed(0)} %; such a solution cannot be made.`, { value: Number(pct.toFixed(1)), limit: BALANCE_PCT, unit: '%' });
    }
    return found;
  });
}

function compositionOf(table: SolutionTable): Composition {
  return { ...table.mmolPerL, ...Object.fromEntries(Object.entries(table.umolPerL).map(([ion, umol]) => [ion, umol / 1000])) };
}

/** Fresh and returned water is only known by an analysis. */
function checkSources({ greenhouse, analyses }: ReadFolder): Refusal[] {
  if (greenhouse === undefined || analyses === undefined) return [];
  const { found, warn } = findingsIn(greenhouse.file);
  const analysed = new Set(analyses.map((row) => row.value.place));
  greenhouse.value.sources.forEach((source, i) => {
    if ((source.kind === 'fresh' || source.kind === 'return') && !analysed.has(`tank:${source.id}`)) warn('value-missing', greenhouse.placeOf(['sources', i]), `No analysis in water-analyses.csv says what is in '${source.id}' (place tank:${source.id}).`);
  });
  return found;
}

/** Coarsest filter before a lamp that is in use, um (GPN "Water disinfection": 50 to 70). */
const COARSEST_FILTER_UM = 70;

/** A treatment belongs to a return tank, and light needs clear water. */
function checkTreatments({ greenhouse }: ReadFolder): Refusal[] {
  if (greenhouse === undefined) return [];
  const { found, warn } = findingsIn(greenhouse.file);
  greenhouse.value.sources.forEach(({ id, kind, treatment }, i) => {
    const at = greenhouse.placeOf(['sources', i, 'treatment']);
    if (treatment === undefined) return;
    if (kind !== 'return') warn('inconsistent', at, `'${id}' is no return tank; its treatment is not looked at.`, { value: kind, limit: 'return' });
    else if (treatment.uvC !== undefined && (treatment.filterUm ?? Infinity) > COARSEST_FILTER_UM) warn('value-out-of-range', at, `'${id}' has no filter of ${COARSEST_FILTER_UM} um or finer before its UV-C lamp: particles shade what they carry.`, { value: treatment.filterUm ?? 'none', limit: COARSEST_FILTER_UM, unit: 'um' });
  });
  return found;
}

function checkStations({ greenhouse }: ReadFolder): Refusal[] {
  if (greenhouse === undefined) return [];
  const { found, warn } = findingsIn(greenhouse.file);
  const kinds = new Set(greenhouse.value.stations.map((station) => station.kind));
  const wanted = (['filling', 'imaging', 'transplanting', 'harvest', 'washing'] as const).filter((kind) => !kinds.has(kind));
  if (wanted.length > 0) warn('value-missing', greenhouse.placeOf(['stations']), `There is no station for ${wanted.join(', ')}; what needs one cannot be planned.`, { limit: wanted.join(', ') });
  return found;
}

/** A sample of a lot that no table names moves no forecast: an old lot, or a mistyped code. Said once for each lot. */
function checkSampledLots({ samples = [], lots }: ReadFolder): Refusal[] {
  if (lots === undefined) return [];
  const { found, warn } = findingsIn('samples.csv');
  const known = new Set(lots.map((row) => row.value.lot));
  for (const { value, placeOf } of samples) {
    if (known.has(value.lot)) continue;
    known.add(value.lot);
    warn('reference-unknown', placeOf('lot'), `lots.csv names no lot '${value.lot}'; its samples move no forecast.`, { value: value.lot });
  }
  return found;
}
