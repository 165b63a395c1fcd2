import { Temporal } from 'temporal-polyfill';
import type { Refusal } from '../../science/refusal.ts';
import { basinFullL, basinWeightKg } from '../basinGeometry.ts';
import { basinsOf } from '../basinsOf.ts';
import { expandFloor } from '../expandFloor.ts';
import { unreachableNodes } from '../travel.ts';
import { fertiliserOf, stockComposition } from '../productComposition.ts';
import type { ProductDescription, ProductsFile } from '../schema/productsFile.ts';
import { findingsIn } from './findings.ts';
import type { ReadFolder } from './greenhouseFolder.ts';
import type { ReadYaml } from './readYamlFile.ts';

type Findings = ReturnType<typeof findingsIn>;
type Read = NonNullable<ReadFolder['greenhouse']>;

/** Whether greenhouse.yaml hangs together: names, floor, berths, weights, stocks. */
export function checkGreenhouse({ greenhouse, products }: ReadFolder): Refusal[] {
  if (greenhouse === undefined) return [];
  const findings = findingsIn(greenhouse.file);
  checkIdentities(greenhouse, findings);
  checkClock(greenhouse, findings);
  checkFloor(greenhouse, findings);
  checkBasins(greenhouse, findings);
  if (products === undefined) return findings.found;
  checkStocks(greenhouse, Object.fromEntries(products.value.products.map((product) => [product.id, product])), findings);
  return [...findings.found, ...checkShelf(products)];
}

const divisorsOf = (whole: number): number[] => Array.from({ length: whole }, (_, i) => i + 1).filter((each) => whole % each === 0);

function checkIdentities({ value, placeOf }: Read, { mustDiffer }: Findings): void {
  const lists = { people: value.people, bays: value.bays, stations: value.stations, vehicles: value.vehicles, basinTypes: value.basinTypes, sources: value.sources };
  for (const [name, list] of Object.entries(lists)) mustDiffer<{ readonly id: string }>(list, (each) => each.id, `entry of ${name}`, (_, i) => placeOf([name, i, 'id']));
  mustDiffer(value.floor.nodes, (node) => node.id, 'node', (_, i) => placeOf(['floor', 'nodes', i, 'id']));
}

function checkClock({ value, placeOf }: Read, { refuse }: Findings): void {
  try {
    Temporal.PlainDateTime.from('2025-01-15T12:00').toZonedDateTime(value.location.timeZone);
  } catch {
    refuse('value-not-allowed', placeOf(['location', 'timeZone']), `'${value.location.timeZone}' is not an IANA time zone; write one like Europe/London.`, { value: value.location.timeZone });
  }
  if (value.shift.start >= value.shift.end) refuse('inconsistent', placeOf(['shift', 'end']), `The shift ends at ${value.shift.end}, not after it starts at ${value.shift.start}.`, { value: value.shift.end, limit: value.shift.start });
  value.shift.breaks.forEach((pause, i) => {
    if (pause.from >= pause.to || pause.from < value.shift.start || pause.to > value.shift.end) refuse('inconsistent', placeOf(['shift', 'breaks', i]), `The break ${pause.from} to ${pause.to} does not lie inside the shift ${value.shift.start} to ${value.shift.end}.`);
  });
}

function checkFloor({ value, placeOf }: Read, { refuse, mustBeKnown, mustDiffer }: Findings): void {
  const bays = value.bays.map((bay) => bay.id);
  value.floor.grids.forEach((grid, i) => mustBeKnown(grid.bay, bays, 'bay', placeOf(['floor', 'grids', i, 'bay'])));
  mustDiffer(value.floor.grids, (grid) => grid.prefix, 'grid prefix', (_, i) => placeOf(['floor', 'grids', i, 'prefix']));
  const floor = expandFloor(value.floor);
  const nodes = Object.keys(floor.nodes);
  value.floor.edges.forEach((edge, i) => {
    mustBeKnown(edge.from, nodes, 'node', placeOf(['floor', 'edges', i, 'from']));
    mustBeKnown(edge.to, nodes, 'node', placeOf(['floor', 'edges', i, 'to']));
  });
  value.floor.berths.forEach((berth, i) => {
    mustBeKnown(berth.node, nodes, 'node', placeOf(['floor', 'berths', i, 'node']));
    mustBeKnown(berth.bay, bays, 'bay', placeOf(['floor', 'berths', i, 'bay']));
  });
  value.stations.forEach((station, i) => mustBeKnown(station.node, nodes, 'node', placeOf(['stations', i, 'node'])));
  value.vehicles.forEach((vehicle, i) => mustBeKnown(vehicle.home, nodes, 'node', placeOf(['vehicles', i, 'home'])));
  const home = value.vehicles[0]?.home;
  if (home === undefined || floor.nodes[home] === undefined) return;
  const lost = unreachableNodes(floor, home);
  if (lost.length > 0) refuse('inconsistent', placeOf(['floor', 'edges']), `No vehicle that starts at '${home}' can go to and come back from ${lost.length} nodes (${lost.slice(0, 5).join(', ')}${lost.length > 5 ? ' ...' : ''}); add the edges that lead there.`, { value: lost.length, limit: 0 });
}

function checkBasins({ value, placeOf }: Read, { refuse, warn, mustBeKnown, mustDiffer }: Findings): void {
  value.basins.forEach((group, i) => {
    mustBeKnown(group.type, value.basinTypes.map((type) => type.id), 'basin type', placeOf(['basins', i, 'type']));
    mustBeKnown(group.bay, value.bays.map((bay) => bay.id), 'bay', placeOf(['basins', i, 'bay']));
  });
  const basins = basinsOf(value);
  mustDiffer(basins, (basin) => basin.id, 'basin', () => placeOf(['basins']));
  const floor = expandFloor(value.floor);
  for (const bay of value.bays) {
    const berths = floor.berths.filter((berth) => berth.bay === bay.id).length;
    const standing = basins.filter((basin) => basin.bay === bay.id).length;
    if (standing > berths) refuse('inconsistent', placeOf(['basins']), `${standing} basins are to stand in bay '${bay.id}', which has ${berths} berths; add berths or move basins.`, { value: standing, limit: berths });
  }
  const strongest = Math.max(...value.vehicles.map((vehicle) => vehicle.maximumLoadKg));
  value.basinTypes.forEach((type, i) => {
    const { rafts, raftsAlong } = type;
    if (raftsAlong !== undefined && rafts % raftsAlong !== 0) refuse('inconsistent', placeOf(['basinTypes', i, 'raftsAlong']), `${rafts} rafts do not stand in rows of ${raftsAlong}; write a number that divides ${rafts} (${divisorsOf(rafts).join(', ')}), or leave raftsAlong out.`, { value: raftsAlong, limit: divisorsOf(rafts) });
    const kg = Math.round(basinWeightKg(type, basinFullL(type)));
    if (kg > strongest) refuse('value-out-of-range', placeOf(['basinTypes', i]), `A full basin of type '${type.id}' weighs ${kg} kg, more than the ${strongest} kg that any vehicle may carry.`, { value: kg, limit: strongest, unit: 'kg' });
    const weakest = Math.min(...value.vehicles.map((vehicle) => vehicle.maximumLoadKg));
    if (kg <= strongest && kg > weakest) warn('value-out-of-range', placeOf(['basinTypes', i]), `A full basin of type '${type.id}' weighs ${kg} kg; not every vehicle may carry that.`, { value: kg, limit: weakest, unit: 'kg' });
  });
}

function checkStocks({ value, placeOf }: Read, shelf: Readonly<Record<string, ProductDescription>>, { refuse, mustBeKnown }: Findings): void {
  value.sources.forEach((source, i) => {
    const at = (...path: PropertyKey[]) => placeOf(['sources', i, ...path]);
    for (const product of Object.keys(source.products ?? {})) mustBeKnown(product, Object.keys(shelf), 'product', at('products', product));
    const madeUp = source.kind === 'stock' || source.kind === 'acid' || source.kind === 'base';
    if (madeUp && source.products === undefined) refuse('value-missing', at(), `Source '${source.id}' is a ${source.kind}; say in products how many grams of what are in a litre of it.`);
    if (source.availableL > source.capacityL) refuse('inconsistent', at('availableL'), `Source '${source.id}' cannot hold ${source.availableL} L in ${source.capacityL} L.`, { value: source.availableL, limit: source.capacityL, unit: 'L' });
    const { mmolPerL } = stockComposition(source.products ?? {}, shelf);
    if ((mmolPerL.Ca ?? 0) > 0 && ((mmolPerL.P ?? 0) > 0 || (mmolPerL.SO4 ?? 0) > 0)) refuse('inconsistent', at('products'), `Stock '${source.id}' joins calcium with phosphate or sulfate; concentrated, they precipitate. Keep them in two tanks.`);
  });
}

function checkShelf({ value, file, placeOf }: ReadYaml<ProductsFile>): Refusal[] {
  const { found, refuse, mustDiffer } = findingsIn(file);
  mustDiffer(value.products, (product) => product.id, 'product', (_, i) => placeOf(['products', i, 'id']));
  value.products.forEach((product, i) => {
    if (fertiliserOf(product) === undefined) refuse('reference-unknown', placeOf(['products', i, 'salt']), `The chemistry table has no salt '${product.salt}'; write its formula, for example KNO3, Ca(NO3)2.4H2O or Fe-DTPA 6 %.`, { value: product.salt });
  });
  return found;
}
