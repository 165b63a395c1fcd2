import type { BasinType } from '../../greenhouse/schema/greenhouseFile.ts';
import type { Berth, GreenhouseState } from '../../greenhouse/state.ts';
import type { MorningPlan } from '../../planning/morningPlan.ts';
import type { BoundsM, FloorAnswer, FloorBasin, PointM } from '../contract.ts';
import { basinStanding } from './basinStanding.ts';
import { basinExtent, berthPlaces, nodePlace } from './berthPlaces.ts';

/** Room around berths for the outline of a bay, and around everything for the titles of stations. */
const BAY_MARGIN_M = 0.8;
const FLOOR_MARGIN_M = 3;
/** Room above the berths of a bay for its title. */
const BAY_TITLE_M = 2;

/** The floor to scale: bays, lanes, basins on their berths, stations, vehicles at home. Undefined while no floor is described. */
export function floorView(state: GreenhouseState, plan: MorningPlan | undefined): FloorAnswer | undefined {
  const { file, floor } = state;
  if (file === undefined || floor === undefined) return undefined;
  const largest = largestBasin(file.basinTypes);
  const places = berthPlaces(floor, largest[0]);
  const size = basinExtent([...places.values()], ...largest);
  const basins = placedBasins(state, plan, places, size[0] < size[1] !== largest[0] < largest[1]);
  const taken = new Set(basins.map((is) => is.berth));
  const at = (node: string): PointM => nodePlace(floor, node);
  const ofBerths = new Set(floor.berths.map((berth) => berth.node));
  const stops = plan?.visits.flatMap((visit) => visit.stops) ?? [];
  const stations = file.stations.map((is) => ({ id: is.id, title: is.title, kind: is.kind, places: is.places, atM: at(is.node), stopsToday: stops.filter((stop) => stop.station === is.id).length }));
  const vehicles = file.vehicles.map((is) => ({ id: is.id, title: is.title, atM: at(is.home) }));
  const corners = [...places.values(), ...Object.keys(floor.nodes).map(at)];
  return {
    boundsM: boundsAround(corners, size, FLOOR_MARGIN_M),
    bays: file.bays.map((bay) => bayView(bay, floor.berths, places, size, basins)),
    lanes: floor.edges.filter((edge) => !ofBerths.has(edge.from) && !ofBerths.has(edge.to)).map((edge) => ({ fromM: at(edge.from), toM: at(edge.to), oneWay: edge.oneWay })),
    basins,
    freeBerths: floor.berths.filter((berth) => !taken.has(berth.id)).map((berth) => ({ id: berth.id, atM: places.get(berth.id) ?? at(berth.node), sizeM: size })),
    stations, vehicles,
  };
}

function placedBasins(state: GreenhouseState, plan: MorningPlan | undefined, places: ReadonlyMap<string, PointM>, crosswise: boolean): FloorBasin[] {
  const outlooks = new Map(plan?.basins.map((is) => [is.basin, is]));
  const date = plan?.date ?? '';
  return Object.values(state.basins).flatMap((basin): FloorBasin[] => {
    const atM = places.get(basin.berth);
    if (atM === undefined) return [];
    const outlook = outlooks.get(basin.id);
    const needs = plan?.needs.filter((need) => need.basin === basin.id) ?? [];
    return [{
      basin: basin.id, bay: basin.bay, berth: basin.berth, atM, sizeM: sizeOf(basin.type, crosswise),
      crop: basin.planting?.crop, stage: basin.planting?.stage, lot: basin.planting?.lot,
      standing: basinStanding(outlook, needs, date),
      needs: needs.map(({ kind, urgency }) => ({ kind, urgency })),
      readyDate: outlook?.readyDate, visitsToday: outlook?.visitsToday ?? [],
    }];
  });
}

function bayView(bay: { id: string; title: string; kind: 'nursery' | 'glass' }, berths: readonly Berth[], places: ReadonlyMap<string, PointM>, size: PointM, basins: readonly FloorBasin[]) {
  const own = berths.filter((berth) => berth.bay === bay.id).map((berth) => places.get(berth.id)).filter((is) => is !== undefined);
  const standing = basins.filter((basin) => basin.bay === bay.id);
  const around = boundsAround(own, size, BAY_MARGIN_M);
  return { id: bay.id, title: bay.title, kind: bay.kind, boundsM: { ...around, top: around.top - BAY_TITLE_M }, basins: standing.length, planted: standing.filter((is) => is.lot !== undefined).length };
}

function boundsAround(points: readonly PointM[], size: PointM, marginM: number): BoundsM {
  if (points.length === 0) return { left: 0, top: 0, right: 0, bottom: 0 };
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  const [dx, dy] = [size[0] / 2 + marginM, size[1] / 2 + marginM];
  return { left: Math.min(...xs) - dx, top: Math.min(...ys) - dy, right: Math.max(...xs) + dx, bottom: Math.max(...ys) + dy };
}

function sizeOf({ lengthMm, widthMm }: BasinType, crosswise: boolean): PointM {
  return crosswise ? [widthMm / 1000, lengthMm / 1000] : [lengthMm / 1000, widthMm / 1000];
}

function largestBasin(types: readonly BasinType[]): PointM {
  return [Math.max(...types.map((is) => is.lengthMm)) / 1000, Math.max(...types.map((is) => is.widthMm)) / 1000];
}
