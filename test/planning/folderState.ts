import Papa from 'papaparse';
import { parse } from 'yaml';
import type { Reading } from '../../src/greenhouse/journalEvent.ts';
import { cropCard } from '../../src/greenhouse/schema/cropCard.ts';
import { greenhouseFile, type GreenhouseFile } from '../../src/greenhouse/schema/greenhouseFile.ts';
import { productsFile } from '../../src/greenhouse/schema/productsFile.ts';
import type { AnalysisRow, LotRow, OrderLine, SampleRow, SowingRow } from '../../src/greenhouse/schema/tableRows.ts';
import type { BasinState, Floor, GreenhouseState } from '../../src/greenhouse/state.ts';
import { EMPTY_BOOK } from '../../src/greenhouse/waterBook.ts';

export interface Folder { readonly state: GreenhouseState; readonly readings: readonly Reading[] }

/** A greenhouse folder (path -> text) as planning takes it, without journal or store: for tests of planning alone. */
export function folderState(files: Readonly<Record<string, string>>): Folder {
  const file = greenhouseFile.parse(parse(files['greenhouse.yaml']!));
  const crops = Object.keys(files).filter((path) => path.startsWith('crops/')).sort().map((path) => cropCard.parse(parse(files[path]!)));
  const products = productsFile.parse(parse(files['fertilisers.yaml']!)).products;
  const lots = table<LotRow>(files['lots.csv']);
  const floor = growFloor(file);
  return {
    readings: table<Reading>(files['readings.csv']),
    state: {
      sequence: 1, floorSequence: 1, file, floor,
      crops: Object.fromEntries(crops.map((card) => [card.id, card])),
      products: Object.fromEntries(products.map((product) => [product.id, product])),
      weather: files['weather.csv'] === undefined ? undefined : { fileName: 'weather.csv', text: files['weather.csv'] },
      orders: Object.fromEntries(table<OrderLine>(files['orders.csv']).map((line) => [`${line.order}/${line.line}`, line])),
      delivered: {},
      basins: placeBasins(file, floor, lots),
      trays: Object.fromEntries(table<SowingRow>(files['sowings.csv']).map((row) => [row.lot, row])),
      samples: table<SampleRow>(files['samples.csv']),
      analyses: table<AnalysisRow>(files['water-analyses.csv']),
      water: EMPTY_BOOK, approved: undefined, outcomes: {}, decisions: [],
    },
  };
}

function table<Row>(text: string | undefined): Row[] {
  if (text === undefined) return [];
  const { data } = Papa.parse<Record<string, unknown>>(text, { header: true, skipEmptyLines: true, dynamicTyping: (column) => !['order', 'lot', 'basin', 'date', 'due', 'sown', 'placed', 'at'].includes(String(column)) });
  return data.map((row) => Object.fromEntries(Object.entries(row).filter(([, value]) => value !== null && value !== '')) as Row);
}

const two = (n: number) => String(n).padStart(2, '0');

function growFloor(file: GreenhouseFile): Floor {
  const nodes: Record<string, { xM: number; yM: number }> = Object.fromEntries(file.floor.nodes.map((node) => [node.id, { xM: node.atM[0], yM: node.atM[1] }]));
  const ways = file.floor.edges.map((edge) => ({ ...edge }));
  const berths = file.floor.berths.map((berth) => ({ ...berth }));
  for (const grid of file.floor.grids) {
    for (let a = 1; a <= grid.aisles; a++) {
      for (let n = 1; n <= grid.berthsPerSide; n++) {
        const id = `${grid.prefix}${a}A${two(n)}`;
        nodes[id] = { xM: grid.originM[0] + (a - 1) * grid.aislePitchM, yM: grid.originM[1] + (n - 1) * grid.berthPitchM };
        for (const side of ['L', 'R']) berths.push({ id: `${grid.prefix}${a}${side}${two(n)}`, node: id, bay: grid.bay });
        if (n > 1) ways.push({ from: `${grid.prefix}${a}A${two(n - 1)}`, to: id, oneWay: false });
        if (a > 1 && (n === 1 || n === grid.berthsPerSide)) ways.push({ from: `${grid.prefix}${a - 1}A${two(n)}`, to: id, oneWay: false });
      }
    }
  }
  const edges = ways.map((way) => ({ ...way, lengthM: Math.hypot(nodes[way.from]!.xM - nodes[way.to]!.xM, nodes[way.from]!.yM - nodes[way.to]!.yM) }));
  return { nodes, edges, berths };
}

function placeBasins(file: GreenhouseFile, floor: Floor, lots: readonly LotRow[]): Record<string, BasinState> {
  const used = new Map<string, number>();
  return Object.fromEntries(file.basins.flatMap((group) => Array.from({ length: group.count }, (_, i): [string, BasinState] => {
    const id = `${group.prefix}${String(group.first + i).padStart(group.digits, '0')}`;
    const place = used.get(group.bay) ?? 0;
    used.set(group.bay, place + 1);
    const berth = floor.berths.filter((is) => is.bay === group.bay)[place]!;
    return [id, {
      id, type: file.basinTypes.find((type) => type.id === group.type)!, bay: group.bay, berth: berth.id, planting: lots.find((row) => row.basin === id),
      filled: undefined, imagedAt: undefined, scans: [], washedAt: undefined, needsWash: false,
    }];
  })));
}
