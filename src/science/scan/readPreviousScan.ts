import { accepted, refused, type Outcome } from '../refusal.ts';

/** Size of a plant at an earlier scan, by raft and position. */
export interface EarlierPlant {
  readonly raft: string | number;
  readonly position: string | number;
  /** Radius of the circle with the plant's area. */
  readonly radiusMm: number;
}

/** The plants of an earlier result of a scan. Refused where it is not such a result. */
export function readPreviousScan(json: unknown, path: string): Outcome<readonly EarlierPlant[]> {
  const plants = isObject(json) ? json.plants : undefined;
  if (!Array.isArray(plants)) return refused([{ code: 'value-missing', path: `${path}: plants`, message: 'An earlier result has a list "plants"; give the JSON that an earlier scan printed.', severity: 'error' }]);
  return accepted(plants.flatMap((plant) => earlierPlant(plant)));
}

function earlierPlant(plant: unknown): EarlierPlant[] {
  if (!isObject(plant) || plant.present !== true) return [];
  const { raft, position, areaMm2 } = plant;
  if (!isIdentity(raft) || !isIdentity(position) || typeof areaMm2 !== 'number' || !(areaMm2 > 0)) return [];
  return [{ raft, position, radiusMm: Math.sqrt(areaMm2 / Math.PI) }];
}

const isObject = (json: unknown): json is Readonly<Record<string, unknown>> => typeof json === 'object' && json !== null;
const isIdentity = (json: unknown): json is string | number => typeof json === 'string' || typeof json === 'number';
