import { accepted, refused, type Outcome, type Refusal } from '../refusal.ts';
import type { BasinLayout, PlantingPosition, RaftLayout } from './basinLayout.ts';

/** Sizes that basins, rafts and rims can have, mm. */
const INNER_MM = [200, 20_000] as const;
const RAFT_MM = [50, 20_000] as const;
const RIM_MM = [0, 600] as const;
const MOST_RAFTS = 200;
const MOST_POSITIONS = 20_000;

/**
 * Checks a basin layout: `{"unit":"mm","rimHeightMm","innerMm","rafts":[{"id","centreMm":[x,y],"sizeMm","positions":[{"id","xMm",
 * "yMm"}]}]}`. Sizes are one number for a square or two for a rectangle; positions count from the centre of their raft. Refused, all at
 * once: missing and impossible numbers, rafts outside the basin, positions outside their raft, ids that occur twice.
 */
export function readLayout(json: unknown, path: string): Outcome<BasinLayout> {
  const faults: Refusal[] = [];
  const layout = new LayoutReader(path, faults).basin(json);
  return faults.length > 0 ? refused(faults.slice(0, 50)) : accepted(layout);
}

type Fields = Readonly<Record<string, unknown>>;
type Range = readonly [low: number, high: number];

class LayoutReader {
  constructor(private readonly path: string, private readonly faults: Refusal[]) {}

  basin(json: unknown): BasinLayout {
    const from = this.fields(json, '');
    if (from.unit !== undefined && from.unit !== 'mm') this.fault('value-not-allowed', 'unit', from.unit, 'mm', 'A layout is written in millimetres: "unit" is "mm". The unit of the cloud is found from its size.');
    const innerMm = this.size(from.innerMm, 'innerMm', INNER_MM);
    const rafts = this.list(from.rafts, 'rafts', MOST_RAFTS).map((raft, i) => this.raft(raft, `rafts[${i}]`, innerMm));
    this.unlike(rafts.map((raft) => String(raft.id)), 'rafts');
    return { rimHeightMm: this.number(from.rimHeightMm, 'rimHeightMm', RIM_MM), innerMm, rafts };
  }

  private raft(json: unknown, at: string, innerMm: readonly [number, number]): RaftLayout {
    const from = this.fields(json, at);
    const sizeMm = this.size(from.sizeMm, `${at}.sizeMm`, RAFT_MM);
    const centreMm = this.pair(from.centreMm, `${at}.centreMm`, [-INNER_MM[1], INNER_MM[1]]);
    const over = [0, 1].some((k) => Math.abs(centreMm[k]!) + sizeMm[k]! / 2 > innerMm[k]! / 2 + 20);
    if (over) this.fault('inconsistent', at, centreMm, innerMm, 'This raft lies outside the basin; correct its centre or size, or innerMm.');
    const positions = this.list(from.positions, `${at}.positions`, MOST_POSITIONS).map((position, i) => this.position(position, `${at}.positions[${i}]`, sizeMm));
    this.unlike(positions.map((position) => String(position.id)), `${at}.positions`);
    return { id: this.identity(from.id, `${at}.id`), centreMm, sizeMm, positions };
  }

  private position(json: unknown, at: string, sizeMm: readonly [number, number]): PlantingPosition {
    const from = this.fields(json, at);
    const inside = (size: number): Range => [-size / 2, size / 2];
    return { id: this.identity(from.id, `${at}.id`), xMm: this.number(from.xMm, `${at}.xMm`, inside(sizeMm[0])), yMm: this.number(from.yMm, `${at}.yMm`, inside(sizeMm[1])) };
  }

  private fields(json: unknown, at: string): Fields {
    if (typeof json === 'object' && json !== null && !Array.isArray(json)) return json as Fields;
    this.fault('value-missing', at, json, 'an object', 'A JSON object was expected here.');
    return {};
  }

  private list(json: unknown, at: string, most: number): readonly unknown[] {
    if (Array.isArray(json) && json.length > 0 && json.length <= most) return json;
    this.fault(json === undefined ? 'value-missing' : 'value-out-of-range', at, Array.isArray(json) ? json.length : json, [1, most], `A list of 1 to ${most} was expected here.`);
    return [];
  }

  private size(json: unknown, at: string, range: Range): readonly [number, number] {
    return typeof json === 'number' ? [this.number(json, at, range), json] : this.pair(json, at, range);
  }

  private pair(json: unknown, at: string, range: Range): readonly [number, number] {
    if (Array.isArray(json) && json.length === 2) return [this.number(json[0], `${at}[0]`, range), this.number(json[1], `${at}[1]`, range)];
    this.fault(json === undefined ? 'value-missing' : 'value-not-a-number', at, json, range, 'Two numbers were expected here: along x and along y.');
    return [range[1], range[1]];
  }

  private number(json: unknown, at: string, [low, high]: Range): number {
    if (typeof json === 'number' && json >= low && json <= high) return json;
    const code = json === undefined ? 'value-missing' : typeof json === 'number' ? 'value-out-of-range' : 'value-not-a-number';
    this.fault(code, at, json, [low, high], `A number of millimetres between ${low} and ${high} was expected here.`);
    return low;
  }

  private identity(json: unknown, at: string): string | number {
    if ((typeof json === 'string' && json.length > 0 && json.length <= 100) || (typeof json === 'number' && Number.isFinite(json))) return json;
    this.fault(json === undefined ? 'value-missing' : 'value-not-allowed', at, json, 'a text or a number', 'An id was expected here: a text of at most 100 characters, or a number.');
    return '';
  }

  private unlike(ids: readonly string[], at: string): void {
    const twice = ids.find((id, i) => id !== '' && ids.indexOf(id) !== i);
    if (twice !== undefined) this.fault('duplicate', at, twice, undefined, `The id ${twice} occurs twice.`);
  }

  private fault(code: Refusal['code'], at: string, value: unknown, limit: unknown, message: string): void {
    this.faults.push({ code, path: at === '' ? this.path : `${this.path}: ${at}`, value, limit, unit: 'mm', message, severity: 'error' });
  }
}
